-- Reasons and questions of an order for which no page waits: the worker finds them.
ALTER TABLE "RankingWork" ADD COLUMN "insight" JSONB;
