-- Tries at a door: counted per hashed key, for as long as the window lasts.
CREATE TABLE "Attempt" (
    "key" TEXT NOT NULL,
    "points" INTEGER NOT NULL,
    "expire" TIMESTAMPTZ(3),

    CONSTRAINT "Attempt_pkey" PRIMARY KEY ("key")
);
