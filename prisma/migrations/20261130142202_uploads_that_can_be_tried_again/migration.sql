-- A film that could not be looked at through no fault of its own keeps its bytes for a while, so that a person can try again.
ALTER TABLE "Upload" ADD COLUMN "canRetry" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "Upload" ADD CONSTRAINT "Upload_retry_is_of_a_refusal" CHECK (NOT "canRetry" OR "state" = 'refused');
-- One picture is there long before the film can be stepped.
ALTER TABLE "Upload" ADD COLUMN "hasPoster" BOOLEAN NOT NULL DEFAULT false;
-- What is still under way is looked for every hour.
CREATE INDEX "Upload_under_way" ON "Upload" ("state", "createdAt") WHERE "state" IN ('receiving', 'checking') OR "canRetry";
