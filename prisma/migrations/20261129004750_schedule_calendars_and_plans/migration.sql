-- CreateTable
CREATE TABLE "Machine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "count" INTEGER NOT NULL DEFAULT 1,
    "holdsWork" BOOLEAN NOT NULL DEFAULT false
);

-- CreateTable
CREATE TABLE "OutsideFinisher" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "does" TEXT NOT NULL DEFAULT '',
    "leadDays" INTEGER NOT NULL,
    "shipDays" INTEGER NOT NULL DEFAULT 0,
    "workdays" TEXT NOT NULL DEFAULT '1,2,3,4,5',
    "sendsOn" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "Closing" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "name" TEXT NOT NULL,
    "fromOn" TEXT NOT NULL,
    "toOn" TEXT NOT NULL,
    "bayId" TEXT,
    "machineId" TEXT,
    "finisherId" TEXT,
    CONSTRAINT "Closing_bayId_fkey" FOREIGN KEY ("bayId") REFERENCES "Bay" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Closing_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Closing_finisherId_fkey" FOREIGN KEY ("finisherId") REFERENCES "OutsideFinisher" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Absence" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "personId" TEXT NOT NULL,
    "fromOn" TEXT NOT NULL,
    "toOn" TEXT NOT NULL,
    "fromAt" INTEGER,
    "toAt" INTEGER,
    CONSTRAINT "Absence_personId_fkey" FOREIGN KEY ("personId") REFERENCES "Person" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ShopPlan" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "madeAt" DATETIME NOT NULL,
    "madeById" TEXT NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "print" TEXT NOT NULL,
    "content" TEXT NOT NULL
);

-- CreateTable
CREATE TABLE "CalendarLink" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "subjectKind" TEXT NOT NULL,
    "subjectId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "createdById" TEXT NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "revokedAt" DATETIME
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Build" (
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
    "priority" TEXT NOT NULL DEFAULT 'usual',
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
    "copiedFromId" TEXT,
    CONSTRAINT "Build_vehicleId_fkey" FOREIGN KEY ("vehicleId") REFERENCES "Vehicle" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Build_bayId_fkey" FOREIGN KEY ("bayId") REFERENCES "Bay" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Build" ("bayId", "budget", "consent", "consentBy", "consentOn", "copiedFromId", "createdAt", "deadline", "deliveredOn", "entered", "holding", "id", "kind", "note", "number", "promisedOn", "reason", "removedAt", "stage", "title", "vehicleId", "version", "wishes") SELECT "bayId", "budget", "consent", "consentBy", "consentOn", "copiedFromId", "createdAt", "deadline", "deliveredOn", "entered", "holding", "id", "kind", "note", "number", "promisedOn", "reason", "removedAt", "stage", "title", "vehicleId", "version", "wishes" FROM "Build";
DROP TABLE "Build";
ALTER TABLE "new_Build" RENAME TO "Build";
CREATE UNIQUE INDEX "Build_number_key" ON "Build"("number");
CREATE INDEX "Build_vehicleId_idx" ON "Build"("vehicleId");
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
    "place" TEXT NOT NULL DEFAULT '',
    "rollOut" TEXT NOT NULL DEFAULT '',
    "isInOnePiece" BOOLEAN NOT NULL DEFAULT false,
    "machineId" TEXT,
    "finisherId" TEXT,
    "backOn" TEXT,
    "earliestOn" TEXT,
    "pinnedAt" DATETIME,
    "note" TEXT NOT NULL DEFAULT '',
    "visitId" TEXT,
    "copiedFromId" TEXT,
    CONSTRAINT "Operation_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Operation_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_lineId_fkey" FOREIGN KEY ("lineId") REFERENCES "EquipmentLine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_departmentId_fkey" FOREIGN KEY ("departmentId") REFERENCES "Department" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Operation_skillId_fkey" FOREIGN KEY ("skillId") REFERENCES "Skill" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_visitId_fkey" FOREIGN KEY ("visitId") REFERENCES "ServiceVisit" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "Operation_finisherId_fkey" FOREIGN KEY ("finisherId") REFERENCES "OutsideFinisher" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Operation" ("buildId", "copiedFromId", "createdAt", "crew", "departmentId", "entered", "factoryPartId", "id", "kind", "learningModel", "learningRate", "lineId", "note", "number", "partId", "personId", "remaining", "removedAt", "reworkAllowance", "run", "runBest", "runWorst", "setUp", "skillId", "state", "version", "visitId", "wait", "work") SELECT "buildId", "copiedFromId", "createdAt", "crew", "departmentId", "entered", "factoryPartId", "id", "kind", "learningModel", "learningRate", "lineId", "note", "number", "partId", "personId", "remaining", "removedAt", "reworkAllowance", "run", "runBest", "runWorst", "setUp", "skillId", "state", "version", "visitId", "wait", "work" FROM "Operation";
DROP TABLE "Operation";
ALTER TABLE "new_Operation" RENAME TO "Operation";
CREATE INDEX "Operation_buildId_idx" ON "Operation"("buildId");
CREATE INDEX "Operation_partId_idx" ON "Operation"("partId");
CREATE INDEX "Operation_lineId_idx" ON "Operation"("lineId");
CREATE INDEX "Operation_factoryPartId_idx" ON "Operation"("factoryPartId");
CREATE INDEX "Operation_state_idx" ON "Operation"("state");
CREATE INDEX "Operation_visitId_idx" ON "Operation"("visitId");
CREATE INDEX "Operation_machineId_idx" ON "Operation"("machineId");
CREATE INDEX "Operation_finisherId_idx" ON "Operation"("finisherId");
CREATE TABLE "new_Person" (
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
    "codeUntil" DATETIME,
    "workdays" TEXT NOT NULL DEFAULT '',
    "startsAt" INTEGER,
    "endsAt" INTEGER
);
INSERT INTO "new_Person" ("codeHash", "codeUntil", "createdAt", "entered", "id", "isActive", "name", "passwordHash", "removedAt", "role", "signInName", "units", "version") SELECT "codeHash", "codeUntil", "createdAt", "entered", "id", "isActive", "name", "passwordHash", "removedAt", "role", "signInName", "units", "version" FROM "Person";
DROP TABLE "Person";
ALTER TABLE "new_Person" RENAME TO "Person";
CREATE UNIQUE INDEX "Person_signInName_key" ON "Person"("signInName");
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
    "earningRule" TEXT NOT NULL DEFAULT 'nothing until done',
    "restVoltageLeast" INTEGER,
    "chargeVoltageLeast" INTEGER,
    "chargeVoltageMost" INTEGER,
    "loadVoltageLeast" INTEGER,
    "keyOffMost" INTEGER,
    "voltageDropMost" INTEGER,
    "gainTolerance" INTEGER,
    "goWrongTogether" INTEGER NOT NULL DEFAULT 300,
    "allowedOverrun" INTEGER NOT NULL DEFAULT 0,
    "laborTaxCodeId" TEXT,
    "materialTaxCodeId" TEXT,
    "suppliesShare" INTEGER NOT NULL DEFAULT 0,
    "suppliesMost" INTEGER,
    "quoteValidDays" INTEGER NOT NULL DEFAULT 30,
    "paymentDays" INTEGER NOT NULL DEFAULT 14,
    "quoteExclusions" TEXT NOT NULL DEFAULT '',
    "quoteAssumptions" TEXT NOT NULL DEFAULT '',
    "holidays" TEXT NOT NULL DEFAULT '',
    "pauseFrom" INTEGER,
    "pauseTo" INTEGER,
    "rollTime" INTEGER NOT NULL DEFAULT 1800
);
INSERT INTO "new_Shop" ("address", "allowedOverrun", "chargeVoltageLeast", "chargeVoltageMost", "clipBreakShare", "closesAt", "consentAlarmShare", "createdAt", "currency", "earningRule", "entered", "gainTolerance", "goWrongTogether", "id", "keyOffMost", "laborTaxCodeId", "loadVoltageLeast", "materialTaxCodeId", "name", "opensAt", "paymentDays", "phone", "quoteAssumptions", "quoteExclusions", "quoteValidDays", "removedAt", "restVoltageLeast", "restoreDepartmentId", "suppliesMost", "suppliesShare", "timeZone", "units", "version", "voltageDropMost", "workdays") SELECT "address", "allowedOverrun", "chargeVoltageLeast", "chargeVoltageMost", "clipBreakShare", "closesAt", "consentAlarmShare", "createdAt", "currency", "earningRule", "entered", "gainTolerance", "goWrongTogether", "id", "keyOffMost", "laborTaxCodeId", "loadVoltageLeast", "materialTaxCodeId", "name", "opensAt", "paymentDays", "phone", "quoteAssumptions", "quoteExclusions", "quoteValidDays", "removedAt", "restVoltageLeast", "restoreDepartmentId", "suppliesMost", "suppliesShare", "timeZone", "units", "version", "voltageDropMost", "workdays" FROM "Shop";
DROP TABLE "Shop";
ALTER TABLE "new_Shop" RENAME TO "Shop";
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "Closing_toOn_idx" ON "Closing"("toOn");

-- CreateIndex
CREATE INDEX "Absence_personId_idx" ON "Absence"("personId");

-- CreateIndex
CREATE INDEX "Absence_toOn_idx" ON "Absence"("toOn");

-- CreateIndex
CREATE INDEX "ShopPlan_createdAt_idx" ON "ShopPlan"("createdAt");

-- CreateIndex
CREATE UNIQUE INDEX "CalendarLink_tokenHash_key" ON "CalendarLink"("tokenHash");

-- CreateIndex
CREATE INDEX "CalendarLink_subjectKind_subjectId_idx" ON "CalendarLink"("subjectKind", "subjectId");
