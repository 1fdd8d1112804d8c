-- CreateTable
CREATE TABLE "Shop" (
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
    "restoreDepartmentId" TEXT
);

-- CreateTable
CREATE TABLE "TaxCode" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "rate" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "Department" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "costRate" INTEGER NOT NULL,
    "sellRate" INTEGER NOT NULL
);

-- CreateTable
CREATE TABLE "Skill" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "departmentId" TEXT NOT NULL,
    CONSTRAINT "Skill_departmentId_fkey" FOREIGN KEY ("departmentId") REFERENCES "Department" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Bay" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Person" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "signInName" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "units" TEXT NOT NULL DEFAULT 'metric',
    "isActive" BOOLEAN NOT NULL DEFAULT true,
    "passwordHash" TEXT NOT NULL DEFAULT '',
    "codeHash" TEXT NOT NULL DEFAULT '',
    "codeUntil" DATETIME
);

-- CreateTable
CREATE TABLE "PersonSkill" (
    "personId" TEXT NOT NULL,
    "skillId" TEXT NOT NULL,

    PRIMARY KEY ("personId", "skillId"),
    CONSTRAINT "PersonSkill_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PersonSkill_skillId_fkey" FOREIGN KEY ("skillId") REFERENCES "Skill" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "tokenHash" TEXT NOT NULL,
    "csrfSecret" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "seenAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "theme" TEXT NOT NULL DEFAULT 'system',
    CONSTRAINT "Session_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "AccessToken" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "tokenHash" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "revokedAt" DATETIME,
    CONSTRAINT "AccessToken_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "IdempotencyKey" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "key" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "bodyHash" TEXT NOT NULL,
    "status" INTEGER NOT NULL,
    "location" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL
);

-- CreateTable
CREATE TABLE "AuditEntry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "at" DATETIME NOT NULL,
    "personId" TEXT,
    "personName" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "recordKind" TEXT NOT NULL,
    "recordId" TEXT NOT NULL,
    "changes" TEXT NOT NULL,
    "requestId" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "Customer" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "contact" TEXT NOT NULL DEFAULT '',
    "phone" TEXT NOT NULL DEFAULT '',
    "email" TEXT NOT NULL DEFAULT '',
    "address" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "Vehicle" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "number" INTEGER NOT NULL,
    "customerId" TEXT NOT NULL,
    "vin" TEXT NOT NULL DEFAULT '',
    "plate" TEXT NOT NULL DEFAULT '',
    "make" TEXT NOT NULL,
    "model" TEXT NOT NULL,
    "year" INTEGER,
    "body" TEXT NOT NULL,
    "energy" TEXT NOT NULL,
    "odometer" INTEGER,
    "airbagWait" INTEGER,
    "airbagWaitSource" TEXT NOT NULL DEFAULT '',
    "highVoltageWait" INTEGER,
    "factoryOptions" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Vehicle_customerId_fkey" FOREIGN KEY ("customerId") REFERENCES "Customer" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Build" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "number" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "stage" TEXT NOT NULL,
    "vehicleId" TEXT NOT NULL,
    "bayId" TEXT,
    "holding" TEXT NOT NULL DEFAULT 'owned',
    "reason" TEXT NOT NULL DEFAULT '',
    "wishes" TEXT NOT NULL DEFAULT '',
    "budget" INTEGER,
    "consent" INTEGER,
    "consentBy" TEXT NOT NULL DEFAULT '',
    "consentOn" TEXT,
    "deadline" TEXT,
    "promisedOn" TEXT,
    "deliveredOn" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Build_vehicleId_fkey" FOREIGN KEY ("vehicleId") REFERENCES "Vehicle" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Build_bayId_fkey" FOREIGN KEY ("bayId") REFERENCES "Bay" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Zone" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Zone_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OpenPoint" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "zoneId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "personId" TEXT,
    "stopsWork" BOOLEAN NOT NULL DEFAULT false,
    "closedOn" TEXT,
    CONSTRAINT "OpenPoint_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "OpenPoint_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Bin" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "place" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Bin_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "EquipmentItem" (
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
    "current" INTEGER,
    "resistance" INTEGER,
    "channels" INTEGER,
    "fuse" INTEGER,
    "warrantyMonths" INTEGER,
    "note" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "EquipmentLine" (
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
    CONSTRAINT "EquipmentLine_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "EquipmentItem" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FabricatedPart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "zoneId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "family" TEXT NOT NULL DEFAULT '',
    "quantity" INTEGER NOT NULL,
    "drawing" TEXT NOT NULL DEFAULT '',
    "mass" INTEGER,
    "isFitted" BOOLEAN NOT NULL DEFAULT false,
    "removable" TEXT NOT NULL DEFAULT '',
    "takeOut" INTEGER NOT NULL DEFAULT 0,
    "putBack" INTEGER NOT NULL DEFAULT 0,
    "cautions" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "FabricatedPart_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FabricatedPart_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "PartUse" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "parentId" TEXT NOT NULL,
    "partId" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL,
    CONSTRAINT "PartUse_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PartUse_parentId_fkey" FOREIGN KEY ("parentId") REFERENCES "FabricatedPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "PartUse_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Operation" (
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
    "crew" INTEGER NOT NULL DEFAULT 1,
    "wait" INTEGER NOT NULL DEFAULT 0,
    "state" TEXT NOT NULL DEFAULT 'not started',
    "remaining" INTEGER,
    "personId" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Operation_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Operation_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_departmentId_fkey" FOREIGN KEY ("departmentId") REFERENCES "Department" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Operation_skillId_fkey" FOREIGN KEY ("skillId") REFERENCES "Skill" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OperationPredecessor" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "earlierId" TEXT NOT NULL,
    "laterId" TEXT NOT NULL,
    CONSTRAINT "OperationPredecessor_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "OperationPredecessor_earlierId_fkey" FOREIGN KEY ("earlierId") REFERENCES "Operation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "OperationPredecessor_laterId_fkey" FOREIGN KEY ("laterId") REFERENCES "Operation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Material" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "form" TEXT NOT NULL,
    "packSize" INTEGER NOT NULL,
    "packName" TEXT NOT NULL,
    "packCost" INTEGER NOT NULL,
    "packPrice" INTEGER NOT NULL,
    "waste" INTEGER NOT NULL DEFAULT 0,
    "supplier" TEXT NOT NULL DEFAULT '',
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "cautions" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "MaterialNeed" (
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
    CONSTRAINT "MaterialNeed_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_materialId_fkey" FOREIGN KEY ("materialId") REFERENCES "Material" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "MaterialNeed_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FactoryPart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "zoneId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "partNumber" TEXT NOT NULL DEFAULT '',
    "state" TEXT NOT NULL DEFAULT 'fitted',
    "binId" TEXT,
    "place" TEXT NOT NULL DEFAULT '',
    "takeOut" INTEGER NOT NULL DEFAULT 0,
    "putBack" INTEGER NOT NULL DEFAULT 0,
    "cautions" TEXT NOT NULL DEFAULT '',
    "connectors" TEXT NOT NULL DEFAULT '',
    "replaceCost" INTEGER,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "condition" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "FactoryPart_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FactoryPart_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FactoryPart_binId_fkey" FOREIGN KEY ("binId") REFERENCES "Bin" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Fastener" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "factoryPartId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "size" TEXT NOT NULL DEFAULT '',
    "drive" TEXT NOT NULL DEFAULT '',
    "count" INTEGER NOT NULL,
    "torque" INTEGER,
    "torqueSource" TEXT NOT NULL DEFAULT '',
    "isSingleUse" BOOLEAN NOT NULL DEFAULT false,
    "isSafety" BOOLEAN NOT NULL DEFAULT false,
    "breakShare" INTEGER NOT NULL DEFAULT 0,
    "materialId" TEXT,
    "price" INTEGER,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Fastener_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Fastener_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Fastener_materialId_fkey" FOREIGN KEY ("materialId") REFERENCES "Material" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Removal" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "factoryPartId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "personId" TEXT NOT NULL,
    "binId" TEXT,
    "condition" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Removal_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Removal_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Removal_binId_fkey" FOREIGN KEY ("binId") REFERENCES "Bin" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "OrderEdge" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "graph" TEXT NOT NULL,
    "kind" TEXT NOT NULL DEFAULT 'out',
    "beforeId" TEXT NOT NULL,
    "afterId" TEXT NOT NULL,
    "way" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "OrderEdge_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Alteration" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "zoneId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "factoryPartId" TEXT,
    "kind" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "consentBy" TEXT NOT NULL DEFAULT '',
    "consentOn" TEXT,
    "isReversible" BOOLEAN NOT NULL DEFAULT true,
    "reversal" TEXT NOT NULL DEFAULT '',
    "reverse" INTEGER NOT NULL DEFAULT 0,
    "partToBuy" TEXT NOT NULL DEFAULT '',
    "partCost" INTEGER,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "reversedOn" TEXT,
    CONSTRAINT "Alteration_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Alteration_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Alteration_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "TimeEntry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "operationId" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "startedAt" DATETIME NOT NULL,
    "seconds" INTEGER NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',
    "correctsId" TEXT,
    "enteredById" TEXT NOT NULL,
    CONSTRAINT "TimeEntry_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TimeEntry_operationId_fkey" FOREIGN KEY ("operationId") REFERENCES "Operation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TimeEntry_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "TimeEntry_correctsId_fkey" FOREIGN KEY ("correctsId") REFERENCES "TimeEntry" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Timer" (
    "personId" TEXT NOT NULL PRIMARY KEY,
    "buildId" TEXT NOT NULL,
    "operationId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "startedAt" DATETIME NOT NULL,
    CONSTRAINT "Timer_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Timer_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Timer_operationId_fkey" FOREIGN KEY ("operationId") REFERENCES "Operation" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Skill_departmentId_idx" ON "Skill"("departmentId");

-- CreateIndex
CREATE UNIQUE INDEX "Person_signInName_key" ON "Person"("signInName");

-- CreateIndex
CREATE UNIQUE INDEX "Session_tokenHash_key" ON "Session"("tokenHash");

-- CreateIndex
CREATE INDEX "Session_personId_idx" ON "Session"("personId");

-- CreateIndex
CREATE UNIQUE INDEX "AccessToken_tokenHash_key" ON "AccessToken"("tokenHash");

-- CreateIndex
CREATE INDEX "AccessToken_personId_idx" ON "AccessToken"("personId");

-- CreateIndex
CREATE UNIQUE INDEX "IdempotencyKey_personId_key_key" ON "IdempotencyKey"("personId", "key");

-- CreateIndex
CREATE INDEX "AuditEntry_recordKind_recordId_at_idx" ON "AuditEntry"("recordKind", "recordId", "at");

-- CreateIndex
CREATE UNIQUE INDEX "Customer_number_key" ON "Customer"("number");

-- CreateIndex
CREATE UNIQUE INDEX "Vehicle_number_key" ON "Vehicle"("number");

-- CreateIndex
CREATE INDEX "Vehicle_customerId_idx" ON "Vehicle"("customerId");

-- CreateIndex
CREATE UNIQUE INDEX "Build_number_key" ON "Build"("number");

-- CreateIndex
CREATE INDEX "Build_vehicleId_idx" ON "Build"("vehicleId");

-- CreateIndex
CREATE UNIQUE INDEX "Zone_buildId_number_key" ON "Zone"("buildId", "number");

-- CreateIndex
CREATE INDEX "OpenPoint_buildId_idx" ON "OpenPoint"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "OpenPoint_zoneId_number_key" ON "OpenPoint"("zoneId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "Bin_buildId_number_key" ON "Bin"("buildId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "EquipmentItem_number_key" ON "EquipmentItem"("number");

-- CreateIndex
CREATE INDEX "EquipmentLine_zoneId_idx" ON "EquipmentLine"("zoneId");

-- CreateIndex
CREATE UNIQUE INDEX "EquipmentLine_buildId_number_key" ON "EquipmentLine"("buildId", "number");

-- CreateIndex
CREATE INDEX "FabricatedPart_zoneId_idx" ON "FabricatedPart"("zoneId");

-- CreateIndex
CREATE UNIQUE INDEX "FabricatedPart_buildId_number_key" ON "FabricatedPart"("buildId", "number");

-- CreateIndex
CREATE INDEX "PartUse_buildId_idx" ON "PartUse"("buildId");

-- CreateIndex
CREATE INDEX "PartUse_parentId_idx" ON "PartUse"("parentId");

-- CreateIndex
CREATE INDEX "PartUse_partId_idx" ON "PartUse"("partId");

-- CreateIndex
CREATE INDEX "Operation_buildId_idx" ON "Operation"("buildId");

-- CreateIndex
CREATE INDEX "Operation_partId_idx" ON "Operation"("partId");

-- CreateIndex
CREATE INDEX "Operation_lineId_idx" ON "Operation"("lineId");

-- CreateIndex
CREATE INDEX "Operation_factoryPartId_idx" ON "Operation"("factoryPartId");

-- CreateIndex
CREATE INDEX "Operation_state_idx" ON "Operation"("state");

-- CreateIndex
CREATE INDEX "OperationPredecessor_buildId_idx" ON "OperationPredecessor"("buildId");

-- CreateIndex
CREATE INDEX "OperationPredecessor_laterId_idx" ON "OperationPredecessor"("laterId");

-- CreateIndex
CREATE INDEX "OperationPredecessor_earlierId_idx" ON "OperationPredecessor"("earlierId");

-- CreateIndex
CREATE UNIQUE INDEX "Material_number_key" ON "Material"("number");

-- CreateIndex
CREATE INDEX "MaterialNeed_buildId_idx" ON "MaterialNeed"("buildId");

-- CreateIndex
CREATE INDEX "MaterialNeed_materialId_idx" ON "MaterialNeed"("materialId");

-- CreateIndex
CREATE INDEX "MaterialNeed_partId_idx" ON "MaterialNeed"("partId");

-- CreateIndex
CREATE INDEX "FactoryPart_zoneId_idx" ON "FactoryPart"("zoneId");

-- CreateIndex
CREATE UNIQUE INDEX "FactoryPart_buildId_number_key" ON "FactoryPart"("buildId", "number");

-- CreateIndex
CREATE INDEX "Fastener_buildId_idx" ON "Fastener"("buildId");

-- CreateIndex
CREATE INDEX "Fastener_factoryPartId_idx" ON "Fastener"("factoryPartId");

-- CreateIndex
CREATE INDEX "Removal_buildId_idx" ON "Removal"("buildId");

-- CreateIndex
CREATE INDEX "Removal_factoryPartId_idx" ON "Removal"("factoryPartId");

-- CreateIndex
CREATE INDEX "OrderEdge_buildId_graph_idx" ON "OrderEdge"("buildId", "graph");

-- CreateIndex
CREATE INDEX "Alteration_zoneId_idx" ON "Alteration"("zoneId");

-- CreateIndex
CREATE UNIQUE INDEX "Alteration_buildId_number_key" ON "Alteration"("buildId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "TimeEntry_correctsId_key" ON "TimeEntry"("correctsId");

-- CreateIndex
CREATE INDEX "TimeEntry_buildId_idx" ON "TimeEntry"("buildId");

-- CreateIndex
CREATE INDEX "TimeEntry_operationId_idx" ON "TimeEntry"("operationId");

-- CreateIndex
CREATE INDEX "TimeEntry_personId_startedAt_idx" ON "TimeEntry"("personId", "startedAt");
