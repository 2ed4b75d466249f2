import { Button } from "@/lib/ui/button";
import { Progress } from "@/lib/ui/progress";
import { useSay } from "@/lib/ui/words/use-say";
import { addWords as words } from "../add-words";
import { LocalStepper } from "../local-stepper";
import { sayPace } from "./pace";
import type { VideoFileFacts } from "./read-video-file";
import type { SendingFilm } from "./sending-line";

const CAN_STOP: readonly SendingFilm["state"][] = ["unowned", "waiting", "reading", "refused", "sending", "lost"];

/** One chosen video: what it says of itself, how far it is, and a look at it before it is sent. */
export function FilmRow({ film, onStop }: { readonly film: SendingFilm; readonly onStop: () => void }) {
  const { key, bytes, facts, state, isKept } = film;
  const label = words.clip(key, sayBytes(bytes.size));
  const isOnItsWay = isGoing(film);
  return (
    <li>
      <div>
        <b>{label}</b> {facts === null ? words.unreadable : facts === "reading" ? null : factWords(facts)}
        <FilmState film={film} />
        {isOnItsWay && !isKept ? <p className="note">{words.notKeptHere}</p> : null}
        {state === "stopped" || facts === "reading" ? null : <LocalStepper file={bytes} label={label} />}
      </div>
      {CAN_STOP.includes(state) ? (
        <Button kind="plain" onClick={onStop} aria-label={`${words.stop}: ${label}`}>
          {words.stop}
        </Button>
      ) : null}
    </li>
  );
}

/** It is on its way, or waits for its turn. */
export function isGoing({ state }: Pick<SendingFilm, "state">): boolean {
  return state === "waiting" || state === "reading" || state === "sending" || state === "lost";
}

/** How far a film is, in words and, while it is sent, as a ruler with speed and time left. */
export function FilmState({ film }: { readonly film: SendingFilm }) {
  const say = useSay();
  const { bytes, state, sentence, arrivedBytes, pace } = film;
  if (state === "refused") return <p role="alert">{say.told(sentence ?? "")}</p>;
  if (state === "sending") {
    const part = arrivedBytes / Math.max(1, bytes.size);
    return <Progress label={say("Sending, {percent} of 100", { percent: Math.floor(100 * part) })} done={Math.floor(20 * part)} total={20} note={pace ? sayPace(pace, say) : null} />;
  }
  return (
    <p className="quiet" role="status">
      {sentence ? `${say.told(sentence)} ` : ""}
      {say.told(words.state[state])}
    </p>
  );
}

/** "4.2 MB", "38 KB". */
function sayBytes(count: number): string {
  return count >= 1e5 ? `${(count / 1e6).toFixed(1)} MB` : `${Math.max(1, Math.round(count / 1e3))} KB`;
}

const CODECS: Readonly<Record<string, string>> = { avc: "H.264", hevc: "HEVC", vp9: "VP9", av1: "AV1", vp8: "VP8" };

function factWords({ seconds, fps, isUneven, widthPx, heightPx, codec, hasSound }: VideoFileFacts): string {
  return `${words.facts(seconds.toFixed(1), fps)}${words.moreFacts({ isUneven, size: `${widthPx} × ${heightPx}`, codec: CODECS[codec] ?? codec, hasSound })}`;
}
