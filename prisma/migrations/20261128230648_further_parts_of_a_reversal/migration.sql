-- CreateTable
CREATE TABLE "ReplacementPart" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "version" INTEGER NOT NULL DEFAULT 1,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removedAt" DATETIME,
    "entered" TEXT NOT NULL DEFAULT '{}',
    "buildId" TEXT NOT NULL,
    "alterationId" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "count" INTEGER NOT NULL DEFAULT 1,
    "cost" INTEGER,
    "leadDays" INTEGER NOT NULL DEFAULT 0,
    CONSTRAINT "ReplacementPart_buildId_fkey" FOREIGN KEY ("buildId") REFERENCES "Build" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "ReplacementPart_alterationId_fkey" FOREIGN KEY ("alterationId") REFERENCES "Alteration" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "ReplacementPart_alterationId_idx" ON "ReplacementPart"("alterationId");
