-- CreateTable
CREATE TABLE "HourCorrection" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "departmentId" TEXT NOT NULL,
    "ratio" INTEGER NOT NULL,
    "low" INTEGER NOT NULL,
    "high" INTEGER NOT NULL,
    "records" INTEGER NOT NULL,
    "acceptedById" TEXT NOT NULL,
    CONSTRAINT "HourCorrection_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Quote" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "linesBy" TEXT NOT NULL DEFAULT 'zone',
    "laborTaxCodeId" TEXT,
    "materialTaxCodeId" TEXT,
    "suppliesShare" INTEGER NOT NULL DEFAULT 0,
    "suppliesMost" INTEGER,
    "validDays" INTEGER NOT NULL DEFAULT 30,
    "exclusions" TEXT NOT NULL DEFAULT '',
    "assumptions" TEXT NOT NULL DEFAULT '',
    "replacedParts" TEXT NOT NULL DEFAULT 'not asked yet',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Quote_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "QuoteOption" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "insteadOf" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "QuoteOption_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "QuoteLine" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "text" TEXT NOT NULL,
    "quantity" INTEGER NOT NULL DEFAULT 1000,
    "price" INTEGER NOT NULL,
    "taxCodeId" TEXT,
    "optionId" TEXT,
    "changeOrderId" TEXT,
    CONSTRAINT "QuoteLine_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "QuoteLine_optionId_fkey" FOREIGN KEY ("optionId") REFERENCES "QuoteOption" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "QuoteLine_changeOrderId_fkey" FOREIGN KEY ("changeOrderId") REFERENCES "ChangeOrder" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "DepositStep" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "share" INTEGER NOT NULL,
    "due" TEXT NOT NULL,
    CONSTRAINT "DepositStep_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ChangeOrder" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "daysLater" INTEGER,
    "validDays" INTEGER NOT NULL DEFAULT 14,
    CONSTRAINT "ChangeOrder_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "QuoteRevision" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "changeOrderId" TEXT,
    "content" TEXT NOT NULL,
    "contentHash" TEXT NOT NULL,
    "validUntil" TEXT NOT NULL,
    "netMinor" INTEGER NOT NULL,
    "taxMinor" INTEGER NOT NULL,
    "frozenById" TEXT NOT NULL,
    "withdrawnAt" DATETIME,
    "withdrawnWhy" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "QuoteRevision_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Consent" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "revisionId" TEXT NOT NULL,
    "decision" TEXT NOT NULL,
    "typedName" TEXT NOT NULL,
    "contentHash" TEXT NOT NULL,
    "chosen" TEXT NOT NULL DEFAULT '[]',
    "netMinor" INTEGER NOT NULL,
    "taxMinor" INTEGER NOT NULL,
    "way" TEXT NOT NULL,
    "linkId" TEXT,
    "recordedById" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Consent_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Consent_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "QuoteRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Invoice" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "number" INTEGER NOT NULL,
    "buildId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "basis" TEXT NOT NULL,
    "content" TEXT NOT NULL,
    "contentHash" TEXT NOT NULL,
    "issuedOn" TEXT NOT NULL,
    "dueOn" TEXT NOT NULL,
    "netMinor" INTEGER NOT NULL,
    "taxMinor" INTEGER NOT NULL,
    "creditsId" TEXT,
    "issuedById" TEXT NOT NULL,
    CONSTRAINT "Invoice_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Payment" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "invoiceId" TEXT,
    "amountMinor" INTEGER NOT NULL,
    "paidOn" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "reference" TEXT NOT NULL DEFAULT '',
    "takesBackId" TEXT,
    "receivedById" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Payment_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Payment_invoiceId_fkey" FOREIGN KEY ("invoiceId") REFERENCES "Invoice" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
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
    "optionId" TEXT,
    CONSTRAINT "EquipmentLine_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_optionId_fkey" FOREIGN KEY ("optionId") REFERENCES "QuoteOption" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_itemId_fkey" FOREIGN KEY ("itemId") REFERENCES "EquipmentItem" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_kitId_fkey" FOREIGN KEY ("kitId") REFERENCES "Kit" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "EquipmentLine_placeId_fkey" FOREIGN KEY ("placeId") REFERENCES "MountingPlace" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_EquipmentLine" ("buildId", "cautions", "copiedFromId", "cost", "createdAt", "entered", "expectedOn", "id", "isFitted", "itemId", "kitId", "mounting", "name", "note", "number", "placeId", "price", "putBack", "quantity", "receivedOn", "removedAt", "serialNumbers", "spacer", "suppliedBy", "takeOut", "taxCodeId", "version", "zoneId") SELECT "buildId", "cautions", "copiedFromId", "cost", "createdAt", "entered", "expectedOn", "id", "isFitted", "itemId", "kitId", "mounting", "name", "note", "number", "placeId", "price", "putBack", "quantity", "receivedOn", "removedAt", "serialNumbers", "spacer", "suppliedBy", "takeOut", "taxCodeId", "version", "zoneId" FROM "EquipmentLine";
DROP TABLE "EquipmentLine";
ALTER TABLE "new_EquipmentLine" RENAME TO "EquipmentLine";
CREATE INDEX "EquipmentLine_zoneId_idx" ON "EquipmentLine"("zoneId");
CREATE UNIQUE INDEX "EquipmentLine_buildId_number_key" ON "EquipmentLine"("buildId", "number");
CREATE TABLE "new_FabricatedPart" (
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
    "copiedFromId" TEXT,
    "optionId" TEXT,
    CONSTRAINT "FabricatedPart_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FabricatedPart_optionId_fkey" FOREIGN KEY ("optionId") REFERENCES "QuoteOption" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "FabricatedPart_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_FabricatedPart" ("buildId", "cautions", "copiedFromId", "createdAt", "drawing", "entered", "family", "id", "isFitted", "mass", "name", "note", "number", "putBack", "quantity", "removable", "removedAt", "takeOut", "version", "zoneId") SELECT "buildId", "cautions", "copiedFromId", "createdAt", "drawing", "entered", "family", "id", "isFitted", "mass", "name", "note", "number", "putBack", "quantity", "removable", "removedAt", "takeOut", "version", "zoneId" FROM "FabricatedPart";
DROP TABLE "FabricatedPart";
ALTER TABLE "new_FabricatedPart" RENAME TO "FabricatedPart";
CREATE INDEX "FabricatedPart_zoneId_idx" ON "FabricatedPart"("zoneId");
CREATE UNIQUE INDEX "FabricatedPart_buildId_number_key" ON "FabricatedPart"("buildId", "number");
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
    "quoteAssumptions" TEXT NOT NULL DEFAULT ''
);
INSERT INTO "new_Shop" ("address", "chargeVoltageLeast", "chargeVoltageMost", "clipBreakShare", "closesAt", "consentAlarmShare", "createdAt", "currency", "earningRule", "entered", "gainTolerance", "id", "keyOffMost", "loadVoltageLeast", "name", "opensAt", "phone", "removedAt", "restVoltageLeast", "restoreDepartmentId", "timeZone", "units", "version", "voltageDropMost", "workdays") SELECT "address", "chargeVoltageLeast", "chargeVoltageMost", "clipBreakShare", "closesAt", "consentAlarmShare", "createdAt", "currency", "earningRule", "entered", "gainTolerance", "id", "keyOffMost", "loadVoltageLeast", "name", "opensAt", "phone", "removedAt", "restVoltageLeast", "restoreDepartmentId", "timeZone", "units", "version", "voltageDropMost", "workdays" FROM "Shop";
DROP TABLE "Shop";
ALTER TABLE "new_Shop" RENAME TO "Shop";
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "HourCorrection_buildId_idx" ON "HourCorrection"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "Quote_buildId_key" ON "Quote"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteOption_buildId_number_key" ON "QuoteOption"("buildId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "QuoteLine_buildId_number_key" ON "QuoteLine"("buildId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "DepositStep_buildId_number_key" ON "DepositStep"("buildId", "number");

-- CreateIndex
CREATE UNIQUE INDEX "ChangeOrder_buildId_number_key" ON "ChangeOrder"("buildId", "number");

-- CreateIndex
CREATE INDEX "QuoteRevision_buildId_idx" ON "QuoteRevision"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "Consent_revisionId_key" ON "Consent"("revisionId");

-- CreateIndex
CREATE INDEX "Consent_buildId_idx" ON "Consent"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "Invoice_number_key" ON "Invoice"("number");

-- CreateIndex
CREATE INDEX "Invoice_buildId_idx" ON "Invoice"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "Payment_takesBackId_key" ON "Payment"("takesBackId");

-- CreateIndex
CREATE INDEX "Payment_buildId_idx" ON "Payment"("buildId");
