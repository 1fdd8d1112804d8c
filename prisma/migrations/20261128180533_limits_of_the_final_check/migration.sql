-- AlterTable
ALTER TABLE "Shop" ADD COLUMN "chargeVoltageLeast" INTEGER;
ALTER TABLE "Shop" ADD COLUMN "chargeVoltageMost" INTEGER;
ALTER TABLE "Shop" ADD COLUMN "gainTolerance" INTEGER;
ALTER TABLE "Shop" ADD COLUMN "keyOffMost" INTEGER;
ALTER TABLE "Shop" ADD COLUMN "loadVoltageLeast" INTEGER;
ALTER TABLE "Shop" ADD COLUMN "restVoltageLeast" INTEGER;
ALTER TABLE "Shop" ADD COLUMN "voltageDropMost" INTEGER;
