import type { Id } from "@/lib/core/ids";

/** How a sending goes: it tells how much has arrived, and ends well, by being taken back, by being refused, or with a line that was lost. */
export interface Sending {
  readonly done: Promise<void>;
  stop(): void;
}

/** The person took the sending back, here or in another window. */
export class Stopped extends Error {}
/** The house will not take it, and trying again would end the same way. */
export class NotTaken extends Error {}

const PIECE_BYTES = 5 * 1024 ** 2;
/** How often a lost line is tried by the protocol itself; whoever called waits longer and tries again. */
const RETRY_DELAYS_MS = [0, 1000, 3000];
const WORTH_AGAIN = new Set([408, 409, 423, 425, 429]);
const signIn = "You are not signed in any more. What has arrived is kept; sign in, and it goes on.";
const notYours = "This sending is not yours any more, so it was stopped.";

/** Sends a film in pieces, going on where an earlier sending stopped: the house is asked how much it has. The name of the file stays here. */
export function sendVideoFile(file: Blob, uploadId: Id, isResumed: boolean, onArrived: (bytes: number) => void): Sending {
  let stop = () => {};
  let isStopped = false;
  const done = import("tus-js-client").then(
    ({ DetailedError, Upload }) =>
      new Promise<void>((resolve, reject) => {
        if (isStopped) return reject(new Stopped());
        const endpoint = `${window.location.origin}/api/uploads`;
        const upload = new Upload(file, {
          endpoint,
          // An address that the house does not know yet is created by the protocol.
          uploadUrl: isResumed ? `${endpoint}/${uploadId}` : null,
          metadata: { upload: uploadId },
          chunkSize: PIECE_BYTES,
          retryDelays: RETRY_DELAYS_MS,
          storeFingerprintForResuming: false,
          onProgress: (sent) => onArrived(sent),
          onSuccess: () => resolve(),
          onError: (error) => reject(error instanceof DetailedError ? told(error.originalResponse?.getStatus() ?? 0, error) : error),
        });
        stop = () => void upload.abort().finally(() => reject(new Stopped()));
        upload.start();
      }),
  );
  return {
    done,
    stop: () => {
      isStopped = true;
      stop();
    },
  };
}

/** What an answer of the house means for the person who sends. */
function told(status: number, error: Error): Error {
  if (status === 410) return new Stopped();
  if (status === 401) return new NotTaken(signIn);
  if (status >= 400 && status < 500 && !WORTH_AGAIN.has(status)) return new NotTaken(notYours);
  return error;
}
