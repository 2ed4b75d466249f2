import type { Id } from "@/lib/core/ids";

/** How a sending goes: it tells how much has arrived, and ends well, with a sentence, or by being taken back. */
export interface Sending {
  readonly done: Promise<void>;
  stop(): void;
}

const PIECE_BYTES = 5 * 1024 ** 2;
const RETRY_DELAYS_MS = [0, 1000, 3000, 8000, 20_000];

/** Sends a file in pieces, going on where an earlier sending stopped. The name of the file stays here. */
export function sendVideoFile(file: File, uploadId: Id, isResumed: boolean, onArrived: (bytes: number) => void): Sending {
  let stop = () => {};
  const done = import("tus-js-client").then(
    ({ Upload }) =>
      new Promise<void>((resolve, reject) => {
        const endpoint = `${window.location.origin}/api/uploads`;
        const upload = new Upload(file, {
          endpoint,
          uploadUrl: isResumed ? `${endpoint}/${uploadId}` : null,
          metadata: { upload: uploadId },
          chunkSize: PIECE_BYTES,
          retryDelays: RETRY_DELAYS_MS,
          storeFingerprintForResuming: false,
          onProgress: (sent) => onArrived(sent),
          onSuccess: () => resolve(),
          onError: (error) => reject(error),
        });
        stop = () => void upload.abort().finally(() => reject(new Stopped()));
        upload.start();
      }),
  );
  return { done, stop: () => stop() };
}

/** The person took the sending back. */
export class Stopped extends Error {}
