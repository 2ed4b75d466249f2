import { DomainError } from "@/lib/core/errors";

/** Nothing more can be written where bytes are kept. */
export class StoreFullError extends DomainError {
  override readonly id = "store-full";
  override readonly status = 507;
  override readonly isReportable = true;
  constructor() {
    super("There is no room left where films are kept. What was kept is not harmed. An admin has to make room; then try again.");
  }
}

/** Bytes that a record speaks of are not there. */
export class BlobLostError extends DomainError {
  override readonly id = "blob-lost";
  override readonly status = 410;
  override readonly isReportable = true;
  constructor() {
    super("The bytes of this film are no longer where they were kept. What was marked and measured is still there. Please tell an admin.");
  }
}

/** The store does not answer, or not as it should. */
export class StoreAwayError extends DomainError {
  override readonly id = "store-away";
  override readonly status = 503;
  override readonly isReportable = true;
  constructor(cause: unknown) {
    super("The place where films are kept does not answer. Nothing was lost. Please try again in a minute.");
    this.cause = cause;
  }
}

/** A system's or a store's own error in the words of the house; one that is none of these is given back as it is. */
export function storeError(error: unknown): unknown {
  if (!(error instanceof Error) || error instanceof DomainError) return error;
  const code = "code" in error ? String(error.code) : error.name;
  if (["ENOSPC", "EDQUOT", "QuotaExceeded", "XMinioStorageFull", "EntityTooLarge"].includes(code)) return new StoreFullError();
  if (["ECONNREFUSED", "ECONNRESET", "ENOTFOUND", "ETIMEDOUT", "EPIPE", "TimeoutError", "ServiceUnavailable", "SlowDown", "InternalError"].includes(code)) return new StoreAwayError(error);
  return error;
}
