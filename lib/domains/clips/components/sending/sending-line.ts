import type { ActionState } from "@/lib/core/action-state";
import type { Id } from "@/lib/core/ids";
import type { BegunUpload } from "../../schema";
import type { KeptFilm } from "./kept-films";
import { paceOf, withSample, type Pace, type PaceSample } from "./pace";
import type { VideoFileFacts } from "./read-video-file";
import { NotTaken, Stopped, type Sending } from "./send-video-file";

export type Answers = Readonly<Record<string, string>>;

/**
 * One chosen film on its way. `unowned`: nobody said whose it is; `waiting`: its turn comes; `reading`: looked through before it is sent;
 * `lost`: the line is gone and it goes on by itself; `sent` and `known`: all of it is there; `refused` and `stopped`: it is not sent.
 */
export interface SendingFilm {
  readonly key: number;
  readonly bytes: Blob;
  readonly facts: VideoFileFacts | null | "reading";
  readonly state: "unowned" | "waiting" | "reading" | "sending" | "lost" | "sent" | "known" | "refused" | "stopped";
  readonly playerId: Id | null;
  readonly uploadId: Id | null;
  readonly arrivedBytes: number;
  readonly pace: Pace | null;
  readonly sentence: string | null;
  readonly fields: Readonly<Record<string, string>>;
  /** It goes on after the page was read anew; false when it must then be chosen again. */
  readonly isKept: boolean;
}

/** What the line does to the world outside: the house, this device, the clock. */
export interface SendingDeps {
  readonly userId: Id;
  readFacts(bytes: Blob): Promise<VideoFileFacts | null>;
  hash(bytes: Blob): Promise<string | null>;
  begin(answers: Answers & { readonly playerId: Id; readonly byteLength: string; readonly contentHash?: string }): Promise<ActionState>;
  cancel(uploadId: Id): Promise<ActionState>;
  move(uploadId: Id, playerId: Id, side: string | undefined): Promise<ActionState>;
  send(bytes: Blob, uploadId: Id, isResumed: boolean, onArrived: (bytes: number) => void): Sending;
  keep(film: KeptFilm): Promise<boolean>;
  drop(id: string): Promise<void>;
  /** Comes back when it is worth trying a lost line again. */
  lineBack(attempt: number): Promise<void>;
  /** Does the work unless another window does it for the same film. */
  alone(id: string, work: () => Promise<void>): Promise<void>;
  nowMs(): number;
}

const MOST_AT_ONCE = 2;
const ENDED: readonly SendingFilm["state"][] = ["sent", "known", "refused", "stopped"];
/** Nothing more happens to it by itself. */
export const isEnded = (state: SendingFilm["state"]): boolean => ENDED.includes(state);

interface Hidden {
  readonly id: string;
  answers: Answers;
  samples: readonly PaceSample[];
  contentHash: string | null | undefined;
  sending: Sending | null;
  isTakenBack: boolean;
}

/** Films on their way, two at once, each until all of it is there: whatever happens to line, house and page. */
export class SendingLine {
  private films: readonly SendingFilm[] = [];
  private readonly hidden = new Map<number, Hidden>();
  private readonly listeners = new Set<() => void>();
  private nextKey = 1;
  private running = 0;
  private reading: Promise<unknown> = Promise.resolve();

  constructor(private readonly deps: SendingDeps) {}

  readonly snapshot = (): readonly SendingFilm[] => this.films;
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** Takes chosen files; nothing is sent before somebody says whose they are. The name of a file is left behind here. */
  choose(files: readonly Blob[]): readonly number[] {
    return files.map((file) => this.add(file.slice(0, file.size, file.type), newFilmId(), {}, { state: "unowned" }));
  }

  /** Takes up films that waited on this device. */
  adopt(kept: readonly KeptFilm[]): void {
    const here = new Set([...this.hidden.values()].map(({ id }) => id));
    for (const { id, bytes, answers, playerId, uploadId } of kept) if (!here.has(id)) this.add(bytes, id, answers, { state: "waiting", playerId, uploadId, isKept: true });
    this.pump();
  }

  /** Says whose a film is and with what answers; it is sent from then on. Once it is on its way the house is told of the other owner. */
  async give(key: number, playerId: Id, answers: Answers): Promise<void> {
    const [film, hidden] = [this.film(key), this.hidden.get(key)];
    if (!film || !hidden) return;
    const isBegun = film.uploadId !== null && film.state !== "refused" && film.state !== "stopped";
    if (isBegun && film.playerId === playerId && hidden.answers.side === answers.side) return;
    if (isBegun && film.uploadId) {
      const before = film.playerId;
      this.change(key, { playerId, sentence: null });
      const moved = await this.deps.move(film.uploadId, playerId, answers.side).catch((): ActionState => ({ status: "refused", message: lineLost, fields: {}, values: {} }));
      if (moved.status === "refused") return this.change(key, { playerId: before, sentence: moved.message });
      hidden.answers = answers;
      if (this.film(key)?.isKept && !isEnded(film.state)) await this.keep(key);
      return;
    }
    if (["reading", "lost"].includes(film.state)) {
      // It has not been begun at the house: it begins anew with the other owner.
      hidden.answers = answers;
      return this.change(key, { playerId });
    }
    Object.assign(hidden, { answers, isTakenBack: false, samples: [] });
    this.change(key, { playerId, state: "waiting", sentence: null, fields: {}, uploadId: null, arrivedBytes: 0 });
    await this.keep(key);
    this.pump();
  }

  /** Takes a film back: what of it has arrived goes, at the house and on this device. The file itself stays where it was. */
  async stop(key: number): Promise<void> {
    const [film, hidden] = [this.film(key), this.hidden.get(key)];
    if (!film || !hidden) return;
    hidden.isTakenBack = true;
    hidden.sending?.stop();
    await this.deps.drop(hidden.id);
    if (film.uploadId && !isEnded(film.state)) {
      const cancelled = await this.deps.cancel(film.uploadId).catch(() => null);
      this.change(key, { state: "stopped", sentence: cancelled?.status === "refused" ? cancelled.message : null });
    } else {
      this.hidden.delete(key);
      this.films = this.films.filter((it) => it.key !== key);
      this.tell();
    }
  }

  private add(bytes: Blob, id: string, answers: Answers, given: Partial<SendingFilm>): number {
    const key = this.nextKey++;
    this.hidden.set(key, { id, answers, samples: [], contentHash: undefined, sending: null, isTakenBack: false });
    const film: SendingFilm = {
      key, bytes, facts: "reading", state: "unowned", playerId: null, uploadId: null, arrivedBytes: 0, pace: null, sentence: null, fields: {}, isKept: false, ...given,
    };
    this.films = [...this.films, film];
    this.tell();
    // One after the other: forty files at once would be forty readers of one disk.
    this.reading = this.reading.then(async () => this.change(key, { facts: await this.deps.readFacts(bytes) }));
    return key;
  }

  private pump(): void {
    while (this.running < MOST_AT_ONCE) {
      const next = this.films.find(({ state }) => state === "waiting");
      if (!next) return;
      this.change(next.key, { state: "reading" });
      this.running += 1;
      void this.sendWhole(next.key).finally(() => {
        this.running -= 1;
        this.pump();
      });
    }
  }

  private async sendWhole(key: number): Promise<void> {
    const hidden = this.hidden.get(key);
    if (!hidden) return;
    let isMine = false;
    await this.deps.alone(hidden.id, async () => {
      isMine = true;
      for (let attempt = 0; !hidden.isTakenBack; attempt += 1) {
        try {
          return await this.end(key, await this.sendOnce(key, hidden));
        } catch (problem) {
          if (problem instanceof Stopped || hidden.isTakenBack) return this.end(key, { state: "stopped" });
          if (problem instanceof NotTaken) return this.end(key, { state: "refused", sentence: problem.message, ...(problem instanceof Refused ? { fields: problem.fields } : {}) });
          this.change(key, { state: "lost", pace: null });
          await this.deps.lineBack(attempt);
        }
      }
    });
    // Another window sends it: here it is out of the way.
    if (!isMine) {
      this.hidden.delete(key);
      this.films = this.films.filter((it) => it.key !== key);
      this.tell();
    }
  }

  private async sendOnce(key: number, hidden: Hidden): Promise<Partial<SendingFilm>> {
    const isResumed = this.film(key)?.uploadId != null;
    const begun = isResumed ? null : await this.begin(key, hidden);
    if (begun?.swingId) return { state: "known" };
    const [film, uploadId] = [this.film(key), begun?.uploadId ?? this.film(key)?.uploadId];
    if (!film || !uploadId || hidden.isTakenBack) throw new Stopped();
    hidden.samples = [];
    this.change(key, { state: "sending", uploadId });
    hidden.sending = this.deps.send(film.bytes, uploadId, isResumed || (begun?.isResumed ?? false), (arrivedBytes) => {
      hidden.samples = withSample(hidden.samples, { atMs: this.deps.nowMs(), bytes: arrivedBytes });
      this.change(key, { arrivedBytes, pace: paceOf(hidden.samples, film.bytes.size) });
    });
    await hidden.sending.done;
    return { state: "sent", arrivedBytes: film.bytes.size };
  }

  private async begin(key: number, hidden: Hidden): Promise<BegunUpload> {
    this.change(key, { state: "reading" });
    const bytes = this.film(key)?.bytes;
    if (!bytes) throw new Stopped();
    hidden.contentHash ??= await this.deps.hash(bytes);
    const playerId = this.film(key)?.playerId;
    if (!playerId || hidden.isTakenBack) throw new Stopped();
    const begun = await this.deps.begin({ ...hidden.answers, playerId, byteLength: String(bytes.size), ...(hidden.contentHash ? { contentHash: hidden.contentHash } : {}) });
    if (begun.status !== "done") throw begun.status === "refused" ? new Refused(begun.message, begun.fields) : new Error("no answer");
    const data = begun.data as BegunUpload;
    this.change(key, { uploadId: data.uploadId });
    if (hidden.isTakenBack) {
      await this.deps.cancel(data.uploadId);
      throw new Stopped();
    }
    // The owner was changed while the house was asked.
    const wanted = this.film(key)?.playerId;
    if (wanted && wanted !== playerId) await this.deps.move(data.uploadId, wanted, hidden.answers.side);
    if (!data.swingId) await this.keep(key);
    return data;
  }

  private async end(key: number, to: Partial<SendingFilm>): Promise<void> {
    const hidden = this.hidden.get(key);
    if (hidden) await this.deps.drop(hidden.id);
    this.change(key, { ...to, pace: null, isKept: false });
  }

  private async keep(key: number): Promise<void> {
    const [film, hidden] = [this.film(key), this.hidden.get(key)];
    if (!film?.playerId || !hidden) return;
    const { bytes, playerId, uploadId } = film;
    const isKept = await this.deps.keep({ id: hidden.id, userId: this.deps.userId, playerId, uploadId, answers: hidden.answers, bytes, keptAtMs: this.deps.nowMs() });
    this.change(key, { isKept });
  }

  private film(key: number): SendingFilm | undefined {
    return this.films.find((it) => it.key === key);
  }

  private change(key: number, to: Partial<SendingFilm>): void {
    this.films = this.films.map((it) => (it.key === key ? { ...it, ...to } : it));
    this.tell();
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}

const lineLost = "The line was lost, so nothing was changed. Please try again.";
const newFilmId = () => Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, "0")).join("");

/** The house said no, and at which answers. */
class Refused extends NotTaken {
  constructor(
    message: string,
    readonly fields: Readonly<Record<string, string>>,
  ) {
    super(message);
  }
}
