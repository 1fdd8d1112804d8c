-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_Fastener" (
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
    "breakShare" INTEGER,
    "materialId" TEXT,
    "price" INTEGER,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    "note" TEXT NOT NULL DEFAULT '',
    CONSTRAINT "Fastener_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Fastener_factoryPartId_fkey" FOREIGN KEY ("factoryPartId") REFERENCES "FactoryPart" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Fastener_materialId_fkey" FOREIGN KEY ("materialId") REFERENCES "Material" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);
INSERT INTO "new_Fastener" ("breakShare", "buildId", "count", "createdAt", "drive", "entered", "factoryPartId", "id", "isSafety", "isSingleUse", "kind", "leadDays", "materialId", "note", "price", "removedAt", "size", "torque", "torqueSource", "version") SELECT "breakShare", "buildId", "count", "createdAt", "drive", "entered", "factoryPartId", "id", "isSafety", "isSingleUse", "kind", "leadDays", "materialId", "note", "price", "removedAt", "size", "torque", "torqueSource", "version" FROM "Fastener";
DROP TABLE "Fastener";
ALTER TABLE "new_Fastener" RENAME TO "Fastener";
CREATE INDEX "Fastener_buildId_idx" ON "Fastener"("buildId");
CREATE INDEX "Fastener_factoryPartId_idx" ON "Fastener"("factoryPartId");
-- A clip's 0 was taken as "not said" until now; of everything else it was meant.
UPDATE "Fastener" SET "breakShare" = NULL, "entered" = json_remove("entered", '$.breakShare') WHERE "kind" = 'clip' AND "breakShare" = 0;
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;
