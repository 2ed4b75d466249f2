import type { Blobs } from "./blob-store";
import { diskBlobs } from "./disk-blobs";
import { s3Blobs } from "./s3-blobs";
import { settings } from "./settings";
import { inWorkFolder } from "./work-folder";

let kept: Blobs | null = null;

/** The academy's bytes: a folder of this machine (BLOB_DIR), or a bucket of an object store (S3_BUCKET). */
export function blobs(): Blobs {
  const { BLOB_DIR, S3_BUCKET, S3_ENDPOINT, S3_REGION, S3_ACCESS_KEY_ID, S3_SECRET_ACCESS_KEY } = settings();
  const key = S3_ACCESS_KEY_ID && S3_SECRET_ACCESS_KEY ? { accessKeyId: S3_ACCESS_KEY_ID, secretAccessKey: S3_SECRET_ACCESS_KEY } : undefined;
  kept ??= S3_BUCKET ? s3Blobs({ bucket: S3_BUCKET, endpoint: S3_ENDPOINT, region: S3_REGION, key }, inWorkFolder) : diskBlobs(BLOB_DIR);
  return kept;
}
