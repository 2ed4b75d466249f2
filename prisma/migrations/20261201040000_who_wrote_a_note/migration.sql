-- Two coaches may write one note: whoever is overtaken is told by whom.
ALTER TABLE "Note" ADD COLUMN "wordsById" UUID;
ALTER TABLE "PrivateNote" ADD COLUMN "writtenById" UUID;
