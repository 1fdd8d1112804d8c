-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Finish" (
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
    "refusal" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "copiedFromId" TEXT,
    CONSTRAINT "Finish_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Finish_partId_fkey" FOREIGN KEY ("partId") REFERENCES "FabricatedPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
INSERT INTO "new_Finish" ("approvedBy", "approvedOn", "batch", "buildId", "code", "color", "copiedFromId", "createdAt", "entered", "grain", "id", "kind", "material", "note", "number", "partId", "removedAt", "sampleState", "supplier", "thread", "version") SELECT "approvedBy", "approvedOn", "batch", "buildId", "code", "color", "copiedFromId", "createdAt", "entered", "grain", "id", "kind", "material", "note", "number", "partId", "removedAt", "sampleState", "supplier", "thread", "version" FROM "Finish";
DROP TABLE "Finish";
ALTER TABLE "new_Finish" RENAME TO "Finish";
CREATE INDEX "Finish_partId_idx" ON "Finish"("partId");
CREATE UNIQUE INDEX "Finish_buildId_number_key" ON "Finish"("buildId", "number");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;
