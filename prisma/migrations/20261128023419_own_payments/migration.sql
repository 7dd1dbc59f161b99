-- AlterTable
ALTER TABLE "own_list" ADD COLUMN     "kind" TEXT NOT NULL DEFAULT 'own-loads';

-- ---- what the schema cannot say

ALTER TABLE "own_list" ADD CONSTRAINT own_list_kind CHECK (kind IN ('own-loads', 'own-payments'));
