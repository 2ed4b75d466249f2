/**
 * The few ways in which something can be refused. Each carries a status for the web, a sentence for the person, and
 * whether an operator should hear of it. What was kept is said in the sentence.
 */
export abstract class DomainError extends Error {
  abstract readonly id: string;
  abstract readonly status: number;
  readonly isReportable: boolean = false;
}

/** Absent and refused are one outcome for the outside, so that nobody learns what exists. */
export class NotFoundError extends DomainError {
  override readonly id = "not-found";
  override readonly status = 404;
  /** @param words said in place of the usual sentence, to everybody who is refused alike */
  constructor(what = "page", words = `There is no such ${what}, or it is not yours to see.`) {
    super(words);
  }
}

/** Nobody is signed in, and the thing asked for needs somebody. */
export class SignInNeededError extends DomainError {
  override readonly id = "sign-in-needed";
  override readonly status = 401;
  constructor() {
    super("Please sign in first.");
  }
}

/** What was sent is wrong: a sentence, and where a form sent it one sentence per field. */
export class InvalidError extends DomainError {
  override readonly id = "invalid";
  override readonly status = 422;
  constructor(
    message: string,
    readonly fields: Readonly<Record<string, string>> = {},
  ) {
    super(message);
  }
}

/** What was sent is right but does not fit what is there now (a third focus, a player who has left). */
export class ConflictError extends DomainError {
  override readonly id: string = "conflict";
  override readonly status = 409;
}

/** Somebody else changed the thing since it was looked at. What they did stands; what was sent was not kept. */
export class OvertakenError extends ConflictError {
  override readonly id = "overtaken";
}

/** Too many tries; says after how many seconds one may try again. */
export class TooManyError extends DomainError {
  override readonly id = "too-many";
  override readonly status = 429;
  constructor(readonly retryAfterSeconds: number) {
    super(`Too many tries. Please wait ${Math.ceil(retryAfterSeconds / 60)} minutes and try again.`);
  }
}
