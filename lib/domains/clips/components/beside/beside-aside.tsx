"use client";
import Link from "next/link";
import { useId, type Dispatch } from "react";
import type { BesideGroup, ClipBeside } from "../../view";
import type { BesideAction, BesideState } from "./beside-state";
import { anchorWords, notLinedWords, scaleWords } from "./beside-words";
import type { Anchors, TorsoScale } from "./laid-over";
import type { LinedClip } from "./lined-clip";

interface Common {
  readonly clips: readonly ClipBeside[];
  readonly state: BesideState;
  readonly dispatch: Dispatch<BesideAction>;
}

export interface ClipListProps extends Common {
  readonly lined: readonly LinedClip[];
  /** Where the page with these clips is. */
  readonly hrefOf: (clipIds: readonly string[]) => string;
}

/** The clips in hand: what each is, how it differs from the first, and what can be done with it. */
export function ClipList({ clips, lined, state, dispatch, hrefOf }: ClipListProps) {
  const ids = clips.map(({ clip }) => clip.id);
  return (
    <section>
      <h2>{["One clip", "Two clips", "Three clips", "Four clips"][clips.length - 1]}</h2>
      <ul className="rows beside-clips">
        {clips.map(({ clip, caption, unlike, notNoted }, i) => {
          const notLined = lined.find((it) => it.id === clip.id)?.notLined;
          const isFlipped = state.places[clip.id]?.isFlipped ?? false;
          return (
            <li key={clip.id}>
              <p>
                <b>
                  {i + 1} · {caption}
                </b>
              </p>
              {i > 0 && unlike.length > 0 ? (
                <div className="note" role="note" aria-label={`How ${caption} is unlike`}>
                  <p>Not like for like:</p>
                  {unlike.map((it) => (
                    <p key={it}>{it}.</p>
                  ))}
                </div>
              ) : null}
              {i > 0 && unlike.length === 0 && notNoted.length > 0 ? <p className="note">Alike, but nobody noted the {notNoted.join(" and the ")}.</p> : null}
              {notLined ? (
                <p className="note">
                  {notLinedWords[notLined]} <Link href={`/swings/${clip.swingId}?clip=${clip.id}`}>{notLined === "no-contact" ? "Set contact" : "Say it there"}</Link>
                </p>
              ) : null}
              <div className="bar-line">
                <button type="button" className="btn" aria-pressed={isFlipped} aria-label={`Flip ${caption}`} onClick={() => dispatch({ kind: "flip", clipId: clip.id })}>
                  {isFlipped ? "Flipped" : "Flip"}
                </button>
                {clips.length > 1 ? (
                  <Link className="btn plain" aria-label={`Take ${caption} away`} href={hrefOf(ids.filter((id) => id !== clip.id))} scroll={false} replace>
                    Take away
                  </Link>
                ) : null}
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

export interface ChooserProps {
  readonly clips: readonly ClipBeside[];
  readonly groups: readonly BesideGroup[];
  readonly hrefOf: (clipIds: readonly string[]) => string;
}

const mostClips = 4;

/** What may be laid beside: other cameras, other swings, each with what makes it unlike. */
export function Chooser({ clips, groups, hrefOf }: ChooserProps) {
  const ids = clips.map(({ clip }) => clip.id);
  if (clips.length >= mostClips) return <p className="note">Four clips at most stand beside each other. Take one away to add another.</p>;
  if (groups.length === 0) return <p className="note">There is no other clip of this player yet.</p>;
  return (
    <section>
      <details className="fold" open={clips.length === 1}>
        <summary>Add a clip</summary>
        {groups.map(({ id, title, choices }) => (
          <div key={id}>
            <h3>{title}</h3>
            <ul className="rows beside-choices">
              {choices.map((it) => (
                <li key={it.clipId}>
                  <Link href={hrefOf([...ids, it.clipId])} scroll={false} replace>
                    {it.words}
                  </Link>
                  {it.unlike.length > 0 ? <p className="note">Not like for like: {it.unlike.join("; ")}.</p> : null}
                  {it.hasContact ? null : <p className="note">Contact is not set.</p>}
                </li>
              ))}
            </ul>
          </div>
        ))}
      </details>
    </section>
  );
}

export interface LayOverControlsProps extends Common {
  readonly torso: TorsoScale;
  readonly anchors: Anchors;
}

/** How pictures lie over one another. */
export function LayOverControls({ clips, state, dispatch, torso, anchors }: LayOverControlsProps) {
  const id = useId();
  const chosen = state.tapping ? "tapped" : state.anchor;
  const asked = clips.find(({ clip }) => clip.id === state.tapping?.clipId);
  return (
    <section aria-label="How they lie over one another">
      <h2>Laid over</h2>
      <div className="field">
        <label htmlFor={id}>How much of the upper picture is seen</label>
        <input id={id} type="range" min={0} max={100} step={5} value={Math.round(state.opacity * 100)} aria-valuetext={`${Math.round(state.opacity * 100)} of 100`} onChange={(event) => dispatch({ kind: "opacity", opacity: Number(event.target.value) / 100 })} />
      </div>
      <fieldset className="field">
        <legend>What lies on what</legend>
        <div className="pick">
          {(["hips", "back-foot", "tapped"] as const).map((anchor) => (
            <label key={anchor}>
              <input type="radio" name={`${id}-anchor`} checked={chosen === anchor} onChange={() => dispatch({ kind: "anchor", anchor })} onClick={() => anchor === "tapped" && chosen === "tapped" && dispatch({ kind: "anchor", anchor })} />{" "}
              {{ hips: "Hips", "back-foot": "Back foot", tapped: "Where I tap" }[anchor]}
            </label>
          ))}
        </div>
      </fieldset>
      {asked ? (
        <div role="status">
          <p className="note">Tap the place in ‘{asked.caption}’, or move the cross with the arrow keys and press Enter.</p>
          <div className="bar-line">
            <button type="button" className="btn main" onClick={() => dispatch({ kind: "tap-place" })}>Take this place</button>
            <button type="button" className="btn" onClick={() => dispatch({ kind: "cancel" })}>Leave it</button>
          </div>
        </div>
      ) : (
        <p className="note">{anchorWords(anchors, clips)}</p>
      )}
      <p className="note">{scaleWords(torso, clips)}</p>
    </section>
  );
}

/** Further ways of looking: points, and times stretched to match, off until asked for. */
export function LookControls({ clips, state, dispatch }: Common) {
  return (
    <section aria-label="What is shown">
      <label className="tick">
        <input type="checkbox" checked={state.hasPoints} onChange={(event) => dispatch({ kind: "points", hasPoints: event.target.checked })} /> Points and lines
      </label>
      {clips.length > 1 ? (
        <label className="tick">
          <input type="checkbox" checked={state.isStretched} onChange={(event) => dispatch({ kind: "stretch", isStretched: event.target.checked })} /> Stretched to match
        </label>
      ) : null}
    </section>
  );
}
