-- Swings that were heard and seen in a film, offered to be cut out of it. Derived: it goes with the file.
CREATE TABLE "FileSwings" (
    "academyId" UUID NOT NULL,
    "fileId" UUID NOT NULL,
    "found" JSONB NOT NULL,
    "foundAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    CONSTRAINT "FileSwings_pkey" PRIMARY KEY ("academyId", "fileId")
);
ALTER TABLE "FileSwings" ADD CONSTRAINT "FileSwings_academyId_fileId_fkey" FOREIGN KEY ("academyId", "fileId") REFERENCES "MediaFile"("academyId", "id") ON DELETE CASCADE ON UPDATE RESTRICT;
