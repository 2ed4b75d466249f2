"use client";
import Link from "next/link";
import { useState, useTransition } from "react";
import { IDLE, type ActionState } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { FormStatus } from "@/lib/ui/form-status";
import { TextInput } from "@/lib/ui/text-input";
import { arrangeChapters } from "../../actions";
import { lengthMs, sayMinutes } from "../../rules";
import type { ChapterView, WalkthroughForCoach } from "../../view";

const seconds = (ms: number) => String(Math.round(ms / 100) / 10);

/** Chapters: what each is called, where it begins and ends, in which order they are told; one can be told anew or left out. */
export function ArrangeChapters({ view }: { readonly view: WalkthroughForCoach }) {
  const [title, setTitle] = useState(view.title);
  const [chapters, setChapters] = useState<readonly ChapterView[]>(view.chapters);
  const [state, setState] = useState<ActionState>(IDLE);
  const [isPending, begin] = useTransition();
  const change = (id: string, to: Partial<ChapterView>) => setChapters(chapters.map((it) => (it.id === id ? { ...it, ...to } : it)));
  const move = (i: number, by: -1 | 1) => {
    const next = [...chapters];
    const [taken] = next.splice(i, 1);
    if (taken) next.splice(i + by, 0, taken);
    setChapters(next);
  };
  const keep = () =>
    begin(async () => setState(await arrangeChapters({ walkthroughId: view.id, title, chapters: chapters.map(({ id, title: name, fromMs, toMs }) => ({ id, title: name, fromMs, toMs })) })));
  const longest = (takeId: string) => view.takes.find(({ id }) => id === takeId)?.durationMs ?? 0;
  const anew = (chapter: ChapterView) => {
    const list = view.takes.find(({ id }) => id === chapter.takeId)?.list;
    const own = list?.clips.map(({ clipId }) => view.clips[clipId]?.clip).find((it) => it?.playerId === view.playerId);
    const others = list?.clips.map(({ clipId }) => clipId).filter((id) => id !== own?.id && view.clips[id]?.clip) ?? [];
    return own ? `/swings/${own.swingId}/talk?${new URLSearchParams({ clip: own.id, ...(others.length > 0 ? { with: others.join(",") } : {}), walkthrough: view.id, chapter: chapter.id })}` : null;
  };
  return (
    <section aria-label="Chapters and their order">
      <h2>Chapters and their order</h2>
      <FormStatus state={state} />
      <TextInput name="title" label="Name of the walkthrough" value={title} maxLength={120} onChange={(event) => setTitle(event.target.value)} />
      <ol className="rows talk-arrange">
        {chapters.map((it, i) => {
          const href = anew(it);
          return (
            <li key={it.id}>
              <TextInput name={`title-${it.id}`} label={`Chapter ${i + 1}, ${sayMinutes(it.toMs - it.fromMs)}`} value={it.title} maxLength={120} onChange={(event) => change(it.id, { title: event.target.value })} />
              <div className="bar-line">
                <TextInput name={`from-${it.id}`} label="Begins, seconds" isShort type="number" min={0} max={seconds(longest(it.takeId))} step={0.1} defaultValue={seconds(it.fromMs)} onChange={(event) => change(it.id, { fromMs: Math.round(Number(event.target.value) * 1000) })} />
                <TextInput name={`to-${it.id}`} label="Ends, seconds" isShort type="number" min={0} max={seconds(longest(it.takeId))} step={0.1} defaultValue={seconds(it.toMs)} onChange={(event) => change(it.id, { toMs: Math.min(longest(it.takeId), Math.round(Number(event.target.value) * 1000)) })} />
                <Button disabled={i === 0} onClick={() => move(i, -1)} aria-label={`Tell ${it.title} earlier`}>Earlier</Button>
                <Button disabled={i === chapters.length - 1} onClick={() => move(i, 1)} aria-label={`Tell ${it.title} later`}>Later</Button>
                {href ? <Link className="btn" href={href} aria-label={`Tell ${it.title} anew`}>Tell anew</Link> : null}
                <Button kind="plain" disabled={chapters.length === 1} onClick={() => setChapters(chapters.filter(({ id }) => id !== it.id))} aria-label={`Leave ${it.title} out`}>Leave out</Button>
              </div>
            </li>
          );
        })}
      </ol>
      <div className="bar-line">
        <Button kind="main" onClick={keep} disabled={isPending}>{isPending ? "Keeping…" : "Keep the chapters"}</Button>
        <p className="note">{sayMinutes(lengthMs(chapters))} minutes in all. What is left out or told anew is removed when you keep.</p>
      </div>
    </section>
  );
}
