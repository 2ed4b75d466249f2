-- What somebody reads the pages in is their own choice; null is no choice, and then the browser is asked.
ALTER TABLE "User" ADD COLUMN "language" TEXT;
ALTER TABLE "User" ADD CONSTRAINT "User_language_is_a_tag" CHECK ("language" ~ '^[a-z]{2}$');

-- The library's own texts in another language, each with the hash of the English it was made from.
CREATE TABLE "LibraryText" (
    "academyId" UUID NOT NULL,
    "language" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "englishHash" TEXT NOT NULL,
    "text" TEXT NOT NULL,

    CONSTRAINT "LibraryText_pkey" PRIMARY KEY ("academyId", "language", "place")
);
CREATE INDEX "LibraryText_academyId_language_englishHash_idx" ON "LibraryText"("academyId", "language", "englishHash");
ALTER TABLE "LibraryText" ADD CONSTRAINT "LibraryText_language_is_a_tag" CHECK ("language" ~ '^[a-z]{2}$');
