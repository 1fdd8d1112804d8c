-- CreateTable
CREATE TABLE "CustodyMove" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "factoryPartId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "personId" TEXT NOT NULL,
    "binId" TEXT,
    "place" TEXT NOT NULL DEFAULT '',
    "fromWords" TEXT NOT NULL DEFAULT '',
    "toWhom" TEXT NOT NULL DEFAULT '',
    "signedName" TEXT NOT NULL DEFAULT '',
    "signature" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "stockTakeId" TEXT,
    CONSTRAINT "CustodyMove_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CustodyMove_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "CustodyMove_binId_fkey" FOREIGN KEY ("binId") REFERENCES "Bin" ("id") ON DELETE SET NULL ON UPDATE CASCADE,
    CONSTRAINT "CustodyMove_stockTakeId_fkey" FOREIGN KEY ("stockTakeId") REFERENCES "StockTake" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "StockTake" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "number" INTEGER NOT NULL,
    "startedOn" TEXT NOT NULL,
    "closedOn" TEXT,
    "note" TEXT NOT NULL DEFAULT ''
);

-- CreateTable
CREATE TABLE "StockTakeSighting" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "stockTakeId" TEXT NOT NULL,
    "factoryPartId" TEXT NOT NULL,
    "binId" TEXT,
    "place" TEXT NOT NULL DEFAULT '',
    "finding" TEXT NOT NULL,
    "personId" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "StockTakeSighting_stockTakeId_fkey" FOREIGN KEY ("stockTakeId") REFERENCES "StockTake" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StockTakeSighting_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StockTakeSighting_binId_fkey" FOREIGN KEY ("binId") REFERENCES "Bin" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "RestorationSheet" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "basis" TEXT NOT NULL,
    "content" TEXT NOT NULL,
    "contentHash" TEXT NOT NULL,
    "frozenById" TEXT NOT NULL,
    "startedOn" TEXT,
    "closedOn" TEXT,
    "outcome" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "RestorationSheet_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "SheetMark" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sheetId" TEXT NOT NULL,
    "step" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "at" DATETIME NOT NULL,
    "personId" TEXT NOT NULL,
    "torque" INTEGER,
    "text" TEXT NOT NULL DEFAULT '',
    "signedName" TEXT NOT NULL DEFAULT '',
    "signature" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "SheetMark_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "RestorationSheet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ShareLink" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "buildId" TEXT NOT NULL,
    "subjectKind" TEXT NOT NULL,
    "subjectId" TEXT NOT NULL,
    "tokenHash" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "createdById" TEXT NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "revokedAt" DATETIME,
    CONSTRAINT "ShareLink_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "FinalCheck" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "signedName" TEXT NOT NULL DEFAULT '',
    "signedAt" DATETIME,
    "signature" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "FinalCheck_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "CheckResult" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "finalCheckId" TEXT NOT NULL,
    "point" TEXT NOT NULL,
    "lineId" TEXT,
    "outcome" TEXT NOT NULL,
    "value" INTEGER,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "note" TEXT NOT NULL DEFAULT '',
    "at" DATETIME NOT NULL,
    "personId" TEXT NOT NULL,
    CONSTRAINT "CheckResult_finalCheckId_fkey" FOREIGN KEY ("finalCheckId") REFERENCES "FinalCheck" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Delivery" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "odometer" INTEGER,
    "placardLoad" INTEGER,
    "careAndUse" TEXT NOT NULL DEFAULT '',
    "beforeSale" TEXT NOT NULL DEFAULT '',
    "explainedById" TEXT,
    "receivedBy" TEXT NOT NULL DEFAULT '',
    "receivedAt" DATETIME,
    "signature" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Delivery_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "BuildStory" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "title" TEXT NOT NULL DEFAULT '',
    "opening" TEXT NOT NULL DEFAULT '',
    "closing" TEXT NOT NULL DEFAULT '',
    "showsPeople" BOOLEAN NOT NULL DEFAULT false,
    "showsHours" BOOLEAN NOT NULL DEFAULT true,
    "showsMaterials" BOOLEAN NOT NULL DEFAULT true,
    CONSTRAINT "BuildStory_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "StoryPicture" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "storyId" TEXT NOT NULL,
    "photoId" TEXT NOT NULL,
    "moment" TEXT NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "position" INTEGER NOT NULL,
    CONSTRAINT "StoryPicture_storyId_fkey" FOREIGN KEY ("storyId") REFERENCES "BuildStory" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StoryPicture_photoId_fkey" FOREIGN KEY ("photoId") REFERENCES "Photo" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "StoryPart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "storyId" TEXT NOT NULL,
    "partId" TEXT NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "position" INTEGER NOT NULL,
    CONSTRAINT "StoryPart_storyId_fkey" FOREIGN KEY ("storyId") REFERENCES "BuildStory" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "StoryPart_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Alteration" (
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
    "whereAt" TEXT NOT NULL DEFAULT '',
    "why" TEXT NOT NULL DEFAULT '',
    "consentBy" TEXT NOT NULL DEFAULT '',
    "consentOn" TEXT,
    "isReversible" BOOLEAN NOT NULL DEFAULT true,
    "reversal" TEXT NOT NULL DEFAULT '',
    "reverse" INTEGER NOT NULL DEFAULT 0,
    "partToBuy" TEXT NOT NULL DEFAULT '',
    "partCost" INTEGER,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "outsideWork" TEXT NOT NULL DEFAULT '',
    "outsideCost" INTEGER,
    "outsideDays" INTEGER NOT NULL DEFAULT 0,
    "reversedOn" TEXT,
    CONSTRAINT "Alteration_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Alteration_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Alteration_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Alteration" ("buildId", "consentBy", "consentOn", "createdAt", "entered", "factoryPartId", "id", "isReversible", "kind", "leadDays", "number", "partCost", "partToBuy", "removedAt", "reversal", "reverse", "reversedOn", "version", "what", "zoneId") SELECT "buildId", "consentBy", "consentOn", "createdAt", "entered", "factoryPartId", "id", "isReversible", "kind", "leadDays", "number", "partCost", "partToBuy", "removedAt", "reversal", "reverse", "reversedOn", "version", "what", "zoneId" FROM "Alteration";
DROP TABLE "Alteration";
ALTER TABLE "new_Alteration" RENAME TO "Alteration";
CREATE INDEX "Alteration_zoneId_idx" ON "Alteration"("zoneId");
CREATE UNIQUE INDEX "Alteration_buildId_number_key" ON "Alteration"("buildId", "number");
CREATE TABLE "new_FactoryPart" (
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
    "stays" BOOLEAN NOT NULL DEFAULT false,
    "note" TEXT NOT NULL DEFAULT '',
    "copiedFromId" TEXT,
    CONSTRAINT "FactoryPart_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FactoryPart_zoneId_fkey" FOREIGN KEY ("zoneId") REFERENCES "Zone" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "FactoryPart_binId_fkey" FOREIGN KEY ("binId") REFERENCES "Bin" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_FactoryPart" ("binId", "buildId", "cautions", "condition", "connectors", "copiedFromId", "createdAt", "entered", "id", "leadDays", "name", "note", "number", "partNumber", "place", "putBack", "removedAt", "replaceCost", "state", "takeOut", "version", "zoneId") SELECT "binId", "buildId", "cautions", "condition", "connectors", "copiedFromId", "createdAt", "entered", "id", "leadDays", "name", "note", "number", "partNumber", "place", "putBack", "removedAt", "replaceCost", "state", "takeOut", "version", "zoneId" FROM "FactoryPart";
DROP TABLE "FactoryPart";
ALTER TABLE "new_FactoryPart" RENAME TO "FactoryPart";
CREATE INDEX "FactoryPart_zoneId_idx" ON "FactoryPart"("zoneId");
CREATE UNIQUE INDEX "FactoryPart_buildId_number_key" ON "FactoryPart"("buildId", "number");
CREATE TABLE "new_Photo" (
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
    "moment" TEXT NOT NULL DEFAULT '',
    "sentAs" TEXT,
    "personId" TEXT NOT NULL,
    CONSTRAINT "Photo_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Photo" ("buildId", "bytes", "caption", "createdAt", "hash", "height", "id", "personId", "removedAt", "subjectId", "subjectKind", "width") SELECT "buildId", "bytes", "caption", "createdAt", "hash", "height", "id", "personId", "removedAt", "subjectId", "subjectKind", "width" FROM "Photo";
DROP TABLE "Photo";
ALTER TABLE "new_Photo" RENAME TO "Photo";
CREATE UNIQUE INDEX "Photo_sentAs_key" ON "Photo"("sentAs");
CREATE INDEX "Photo_buildId_createdAt_idx" ON "Photo"("buildId", "createdAt");
CREATE INDEX "Photo_subjectKind_subjectId_idx" ON "Photo"("subjectKind", "subjectId");
CREATE INDEX "Photo_hash_idx" ON "Photo"("hash");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "CustodyMove_buildId_idx" ON "CustodyMove"("buildId");

-- CreateIndex
CREATE INDEX "CustodyMove_factoryPartId_at_idx" ON "CustodyMove"("factoryPartId", "at");

-- CreateIndex
CREATE UNIQUE INDEX "StockTake_number_key" ON "StockTake"("number");

-- CreateIndex
CREATE INDEX "StockTakeSighting_stockTakeId_factoryPartId_idx" ON "StockTakeSighting"("stockTakeId", "factoryPartId");

-- CreateIndex
CREATE UNIQUE INDEX "RestorationSheet_buildId_number_key" ON "RestorationSheet"("buildId", "number");

-- CreateIndex
CREATE INDEX "SheetMark_sheetId_step_at_idx" ON "SheetMark"("sheetId", "step", "at");

-- CreateIndex
CREATE UNIQUE INDEX "ShareLink_tokenHash_key" ON "ShareLink"("tokenHash");

-- CreateIndex
CREATE INDEX "ShareLink_subjectKind_subjectId_idx" ON "ShareLink"("subjectKind", "subjectId");

-- CreateIndex
CREATE INDEX "ShareLink_buildId_idx" ON "ShareLink"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "FinalCheck_buildId_key" ON "FinalCheck"("buildId");

-- CreateIndex
CREATE INDEX "CheckResult_finalCheckId_point_at_idx" ON "CheckResult"("finalCheckId", "point", "at");

-- CreateIndex
CREATE UNIQUE INDEX "Delivery_buildId_key" ON "Delivery"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "BuildStory_buildId_key" ON "BuildStory"("buildId");

-- CreateIndex
CREATE UNIQUE INDEX "StoryPicture_storyId_photoId_key" ON "StoryPicture"("storyId", "photoId");

-- CreateIndex
CREATE UNIQUE INDEX "StoryPart_storyId_partId_key" ON "StoryPart"("storyId", "partId");
