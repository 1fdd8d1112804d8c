-- AlterTable
ALTER TABLE "Build" ADD COLUMN "copiedFromId" TEXT;

-- AlterTable
ALTER TABLE "FabricatedPart" ADD COLUMN "copiedFromId" TEXT;

-- AlterTable
ALTER TABLE "FactoryPart" ADD COLUMN "copiedFromId" TEXT;

-- AlterTable
ALTER TABLE "OrderEdge" ADD COLUMN "copiedFromId" TEXT;

-- CreateTable
CREATE TABLE "StandardFitting" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "departmentId" TEXT NOT NULL,
    "skillId" TEXT,
    "setUp" INTEGER NOT NULL DEFAULT 0,
    "run" INTEGER NOT NULL DEFAULT 0,
    "itemId" TEXT,
    "kitId" TEXT,
    "cautions" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "StandardFitting_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "EquipmentItem" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "StandardFitting_kitId_fkey" FOREIGN KEY ("kitId") REFERENCES "Kit" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Kit" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "KitPart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "kitId" TEXT NOT NULL,
    "materialId" TEXT NOT NULL,
    "form" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "KitPart_kitId_fkey" FOREIGN KEY ("kitId") REFERENCES "Kit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "KitPart_materialId_fkey" FOREIGN KEY ("materialId") REFERENCES "Material" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "MountingPlace" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "zoneId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "checks" TEXT NOT NULL DEFAULT 'mounting depth',
    "depth" INTEGER,
    "windowDrop" INTEGER,
    "seatTravel" INTEGER,
    "lidHinges" INTEGER,
    "grille" INTEGER,
    "length" INTEGER,
    "width" INTEGER,
    "largestSpacer" INTEGER NOT NULL DEFAULT 0,
    "clearance" INTEGER NOT NULL DEFAULT 3000,
    "measured" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "MountingPlace_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MountingPlace_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Finish" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "partId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "material" TEXT NOT NULL DEFAULT '',
    "color" TEXT NOT NULL DEFAULT '',
    "code" TEXT NOT NULL DEFAULT '',
    "grain" TEXT NOT NULL DEFAULT '',
    "thread" TEXT NOT NULL DEFAULT '',
    "supplier" TEXT NOT NULL DEFAULT '',
    "batch" TEXT NOT NULL DEFAULT '',
    "sampleState" TEXT NOT NULL DEFAULT 'no sample yet',
    "approvedBy" TEXT NOT NULL DEFAULT '',
    "approvedOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "copiedFromId" TEXT,
    CONSTRAINT "Finish_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Finish_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Intake" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "odometer" INTEGER,
    "energyLevel" TEXT NOT NULL DEFAULT '',
    "warningLights" TEXT NOT NULL DEFAULT '',
    "keys" INTEGER,
    "leftInside" TEXT NOT NULL DEFAULT '',
    "walkedZones" TEXT NOT NULL DEFAULT '',
    "walkedById" TEXT,
    "walkedOn" TEXT,
    "signedName" TEXT NOT NULL DEFAULT '',
    "signedAt" DATETIME,
    "signature" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Intake_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ConditionMark" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "place" TEXT NOT NULL,
    "x" INTEGER NOT NULL,
    "y" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "size" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "ConditionMark_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FaultCode" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "code" TEXT NOT NULL,
    "unit" TEXT NOT NULL DEFAULT '',
    "words" TEXT NOT NULL DEFAULT '',
    "readAt" TEXT NOT NULL,
    "readOn" TEXT NOT NULL,
    "clearedOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "FaultCode_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "VehicleSecret" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "sealed" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "erasedAt" DATETIME,
    CONSTRAINT "VehicleSecret_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Photo" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "buildId" TEXT NOT NULL,
    "subjectKind" TEXT NOT NULL,
    "subjectId" TEXT NOT NULL,
    "hash" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "caption" TEXT NOT NULL DEFAULT '',
    "personId" TEXT NOT NULL,
    CONSTRAINT "Photo_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ServiceVisit" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "cameOn" TEXT NOT NULL,
    "odometer" INTEGER,
    "complaint" TEXT NOT NULL,
    "cause" TEXT NOT NULL DEFAULT 'not found yet',
    "found" TEXT NOT NULL DEFAULT '',
    "paidBy" TEXT NOT NULL DEFAULT 'shop warranty',
    "leftOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "ServiceVisit_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "MakerClaim" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "visitId" TEXT NOT NULL,
    "lineId" TEXT NOT NULL,
    "claimedOn" TEXT NOT NULL,
    "reference" TEXT NOT NULL DEFAULT '',
    "state" TEXT NOT NULL DEFAULT 'sent',
    "amount" INTEGER,
    "answeredOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "MakerClaim_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MakerClaim_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "ServiceVisit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MakerClaim_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SerialSwap" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "visitId" TEXT NOT NULL,
    "lineId" TEXT NOT NULL,
    "oldSerial" TEXT NOT NULL,
    "newSerial" TEXT NOT NULL,
    "swappedOn" TEXT NOT NULL,
    "warrantyUntil" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "SerialSwap_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SerialSwap_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "ServiceVisit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "SerialSwap_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Department" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "costRate" INTEGER NOT NULL,
    "sellRate" INTEGER NOT NULL,
    "reworkAllowance" INTEGER NOT NULL DEFAULT 0
);
INSERT INTO "new_Department" ("costRate", "createdAt", "entered", "id", "name", "removedAt", "sellRate", "version") SELECT "costRate", "createdAt", "entered", "id", "name", "removedAt", "sellRate", "version" FROM "Department";
DROP TABLE "Department";
ALTER TABLE "new_Department" RENAME TO "Department";
CREATE TABLE "new_EquipmentItem" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "number" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "maker" TEXT NOT NULL,
    "model" TEXT NOT NULL,
    "cost" INTEGER NOT NULL,
    "price" INTEGER NOT NULL,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "mass" INTEGER,
    "mountingDepth" INTEGER,
    "projection" INTEGER,
    "length" INTEGER,
    "width" INTEGER,
    "height" INTEGER,
    "kitId" TEXT,
    "current" INTEGER,
    "resistance" INTEGER,
    "channels" INTEGER,
    "fuse" INTEGER,
    "warrantyMonths" INTEGER,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "EquipmentItem_kitId_fkey" FOREIGN KEY ("kitId") REFERENCES "Kit" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_EquipmentItem" ("channels", "cost", "createdAt", "current", "entered", "fuse", "id", "kind", "leadDays", "maker", "mass", "model", "mountingDepth", "note", "number", "price", "removedAt", "resistance", "version", "warrantyMonths") SELECT "channels", "cost", "createdAt", "current", "entered", "fuse", "id", "kind", "leadDays", "maker", "mass", "model", "mountingDepth", "note", "number", "price", "removedAt", "resistance", "version", "warrantyMonths" FROM "EquipmentItem";
DROP TABLE "EquipmentItem";
ALTER TABLE "new_EquipmentItem" RENAME TO "EquipmentItem";
CREATE UNIQUE INDEX "EquipmentItem_number_key" ON "EquipmentItem"("number");
CREATE TABLE "new_EquipmentLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "zoneId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "itemId" TEXT,
    "name" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "suppliedBy" TEXT NOT NULL DEFAULT 'shop',
    "cost" INTEGER NOT NULL DEFAULT 0,
    "price" INTEGER NOT NULL DEFAULT 0,
    "taxCodeId" TEXT,
    "serialNumbers" TEXT NOT NULL DEFAULT '',
    "mounting" TEXT NOT NULL DEFAULT '',
    "expectedOn" TEXT,
    "receivedOn" TEXT,
    "isFitted" BOOLEAN NOT NULL DEFAULT false,
    "takeOut" INTEGER NOT NULL DEFAULT 0,
    "putBack" INTEGER NOT NULL DEFAULT 0,
    "cautions" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "kitId" TEXT,
    "placeId" TEXT,
    "spacer" INTEGER,
    "copiedFromId" TEXT,
    CONSTRAINT "EquipmentLine_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "EquipmentItem" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_kitId_fkey" FOREIGN KEY ("kitId") REFERENCES "Kit" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "MountingPlace" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_EquipmentLine" ("buildId", "cautions", "cost", "createdAt", "entered", "expectedOn", "id", "isFitted", "itemId", "mounting", "name", "note", "number", "price", "putBack", "quantity", "receivedOn", "removedAt", "serialNumbers", "suppliedBy", "takeOut", "taxCodeId", "version", "zoneId") SELECT "buildId", "cautions", "cost", "createdAt", "entered", "expectedOn", "id", "isFitted", "itemId", "mounting", "name", "note", "number", "price", "putBack", "quantity", "receivedOn", "removedAt", "serialNumbers", "suppliedBy", "takeOut", "taxCodeId", "version", "zoneId" FROM "EquipmentLine";
DROP TABLE "EquipmentLine";
ALTER TABLE "new_EquipmentLine" RENAME TO "EquipmentLine";
CREATE INDEX "EquipmentLine_zoneId_idx" ON "EquipmentLine"("zoneId");
CREATE UNIQUE INDEX "EquipmentLine_buildId_number_key" ON "EquipmentLine"("buildId", "number");
CREATE TABLE "new_MaterialNeed" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "materialId" TEXT NOT NULL,
    "form" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    "partId" TEXT,
    "lineId" TEXT,
    "factoryPartId" TEXT,
    "expectedOn" TEXT,
    "receivedOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "kitPartId" TEXT,
    "isAdjusted" BOOLEAN NOT NULL DEFAULT false,
    "copiedFromId" TEXT,
    CONSTRAINT "MaterialNeed_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_materialId_fkey" FOREIGN KEY ("materialId") REFERENCES "Material" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_kitPartId_fkey" FOREIGN KEY ("kitPartId") REFERENCES "KitPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_MaterialNeed" ("buildId", "createdAt", "entered", "expectedOn", "factoryPartId", "form", "id", "lineId", "materialId", "note", "partId", "quantity", "receivedOn", "removedAt", "version") SELECT "buildId", "createdAt", "entered", "expectedOn", "factoryPartId", "form", "id", "lineId", "materialId", "note", "partId", "quantity", "receivedOn", "removedAt", "version" FROM "MaterialNeed";
DROP TABLE "MaterialNeed";
ALTER TABLE "new_MaterialNeed" RENAME TO "MaterialNeed";
CREATE INDEX "MaterialNeed_buildId_idx" ON "MaterialNeed"("buildId");
CREATE INDEX "MaterialNeed_materialId_idx" ON "MaterialNeed"("materialId");
CREATE INDEX "MaterialNeed_partId_idx" ON "MaterialNeed"("partId");
CREATE INDEX "MaterialNeed_lineId_idx" ON "MaterialNeed"("lineId");
CREATE INDEX "MaterialNeed_kitPartId_idx" ON "MaterialNeed"("kitPartId");
CREATE TABLE "new_Operation" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "partId" TEXT,
    "lineId" TEXT,
    "factoryPartId" TEXT,
    "kind" TEXT NOT NULL,
    "work" TEXT NOT NULL DEFAULT '',
    "departmentId" TEXT NOT NULL,
    "skillId" TEXT,
    "setUp" INTEGER NOT NULL DEFAULT 0,
    "run" INTEGER NOT NULL DEFAULT 0,
    "runBest" INTEGER,
    "runWorst" INTEGER,
    "learningModel" TEXT NOT NULL DEFAULT '',
    "learningRate" INTEGER,
    "reworkAllowance" INTEGER,
    "crew" INTEGER NOT NULL DEFAULT 1,
    "wait" INTEGER NOT NULL DEFAULT 0,
    "state" TEXT NOT NULL DEFAULT 'not started',
    "remaining" INTEGER,
    "personId" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "visitId" TEXT,
    "copiedFromId" TEXT,
    CONSTRAINT "Operation_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Operation_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_departmentId_fkey" FOREIGN KEY ("departmentId") REFERENCES "Department" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Operation_skillId_fkey" FOREIGN KEY ("skillId") REFERENCES "Skill" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "ServiceVisit" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Operation" ("buildId", "createdAt", "crew", "departmentId", "entered", "factoryPartId", "id", "kind", "lineId", "note", "number", "partId", "personId", "remaining", "removedAt", "run", "setUp", "skillId", "state", "version", "wait", "work") SELECT "buildId", "createdAt", "crew", "departmentId", "entered", "factoryPartId", "id", "kind", "lineId", "note", "number", "partId", "personId", "remaining", "removedAt", "run", "setUp", "skillId", "state", "version", "wait", "work" FROM "Operation";
DROP TABLE "Operation";
ALTER TABLE "new_Operation" RENAME TO "Operation";
CREATE INDEX "Operation_buildId_idx" ON "Operation"("buildId");
CREATE INDEX "Operation_partId_idx" ON "Operation"("partId");
CREATE INDEX "Operation_lineId_idx" ON "Operation"("lineId");
CREATE INDEX "Operation_factoryPartId_idx" ON "Operation"("factoryPartId");
CREATE INDEX "Operation_state_idx" ON "Operation"("state");
CREATE INDEX "Operation_visitId_idx" ON "Operation"("visitId");
CREATE TABLE "new_Shop" (
    "id" TEXT NOT NULL PRIMARY KEY DEFAULT 'shop',
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL DEFAULT '',
    "address" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "currency" TEXT NOT NULL DEFAULT 'USD',
    "timeZone" TEXT NOT NULL DEFAULT 'UTC',
    "units" TEXT NOT NULL DEFAULT 'metric',
    "opensAt" INTEGER NOT NULL DEFAULT 28800,
    "closesAt" INTEGER NOT NULL DEFAULT 61200,
    "workdays" TEXT NOT NULL DEFAULT '1,2,3,4,5',
    "clipBreakShare" INTEGER NOT NULL DEFAULT 200,
    "consentAlarmShare" INTEGER NOT NULL DEFAULT 900,
    "restoreDepartmentId" TEXT,
    "earningRule" TEXT NOT NULL DEFAULT 'nothing until done'
);
INSERT INTO "new_Shop" ("address", "clipBreakShare", "closesAt", "consentAlarmShare", "createdAt", "currency", "entered", "id", "name", "opensAt", "phone", "removedAt", "restoreDepartmentId", "timeZone", "units", "version", "workdays") SELECT "address", "clipBreakShare", "closesAt", "consentAlarmShare", "createdAt", "currency", "entered", "id", "name", "opensAt", "phone", "removedAt", "restoreDepartmentId", "timeZone", "units", "version", "workdays" FROM "Shop";
DROP TABLE "Shop";
ALTER TABLE "new_Shop" RENAME TO "Shop";
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "KitPart_kitId_idx" ON "KitPart"("kitId");

-- CreateIndex
CREATE INDEX "MountingPlace_zoneId_idx" ON "MountingPlace"("zoneId");

-- CreateIndex
CREATE UNIQUE INDEX "MountingPlace_buildId_number_key" ON "MountingPlace"("buildId", "number");

-- CreateIndex
CREATE INDEX "Finish_partId_idx" ON "Finish"("partId");

-- CreateIndex
CREATE UNIQUE INDEX "Finish_buildId_number_key" ON "Finish"("buildId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Intake_buildId_key" ON "Intake"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "ConditionMark_buildId_number_key" ON "ConditionMark"("buildId", "number");

-- CreateIndex
CREATE INDEX "FaultCode_buildId_idx" ON "FaultCode"("buildId");

-- CreateIndex
CREATE INDEX "VehicleSecret_buildId_idx" ON "VehicleSecret"("buildId");

-- CreateIndex
CREATE INDEX "Photo_buildId_createdAt_idx" ON "Photo"("buildId", "createdAt");

-- CreateIndex
CREATE INDEX "Photo_subjectKind_subjectId_idx" ON "Photo"("subjectKind", "subjectId");

-- CreateIndex
CREATE INDEX "Photo_hash_idx" ON "Photo"("hash");

-- CreateIndex
CREATE UNIQUE INDEX "ServiceVisit_buildId_number_key" ON "ServiceVisit"("buildId", "number");

-- CreateIndex
CREATE INDEX "MakerClaim_buildId_idx" ON "MakerClaim"("buildId");

-- CreateIndex
CREATE INDEX "MakerClaim_visitId_idx" ON "MakerClaim"("visitId");

-- CreateIndex
CREATE INDEX "SerialSwap_buildId_idx" ON "SerialSwap"("buildId");

-- CreateIndex
CREATE INDEX "SerialSwap_lineId_idx" ON "SerialSwap"("lineId");
