"use client";
import { useActionState, useId, useState, type ChangeEvent } from "react";
import { IDLE } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { writeSummary, writeWords } from "../../actions";
import { beginnings } from "../../rules";
import type { WalkthroughForCoach } from "../../view";

const stamp = (ms: number) => `${String(Math.floor(ms / 60_000)).padStart(2, "0")}:${String(Math.floor(ms / 1000) % 60).padStart(2, "0")}.${String(Math.round(ms) % 1000).padStart(3, "0")}`;
const LINE_MS = 3000;

/** Captions as WebVTT, typed, pasted or from a file, and a summary that begins with what was talked about. */
export function WordsDesk({ view }: { readonly view: WalkthroughForCoach }) {
  const id = useId();
  const [captions, setCaptions] = useState(view.captions.trim() === "WEBVTT" ? "" : view.captions);
  const [summary, setSummary] = useState(view.summary || view.summaryDraft);
  const [wordsState, keepWords] = useActionState(writeWords, IDLE);
  const [summaryState, keepSummary] = useActionState(writeSummary, IDLE);
  const begins = beginnings(view.chapters);
  const takeFile = (event: ChangeEvent<HTMLInputElement>) => {
    void event.target.files?.[0]?.text().then(setCaptions);
    event.target.value = "";
  };
  /** A line to be written at the beginning of each chapter. */
  const lay = () => setCaptions(["WEBVTT", ...view.chapters.map(({ title, fromMs, toMs }, i) => `${stamp(begins[i] ?? 0)} --> ${stamp((begins[i] ?? 0) + Math.min(LINE_MS, toMs - fromMs))}\n${title}`)].join("\n\n"));
  const wordsError = wordsState.status === "refused" ? wordsState.fields.captions : undefined;
  return (
    <>
      <section aria-label="Summary">
        <h2>In a paragraph</h2>
        <form action={keepSummary}>
          <FormStatus state={summaryState} />
          <input type="hidden" name="walkthroughId" value={view.id} />
          <div className="field">
            <label htmlFor={`${id}-summary`}>What the family reads first</label>
            <textarea id={`${id}-summary`} name="summary" rows={4} maxLength={1200} value={summary} onChange={(event) => setSummary(event.target.value)} aria-describedby={`${id}-summary-hint`} />
            <p className="hint" id={`${id}-summary-hint`}>{view.summary ? "It was kept like this." : "Drafted from what you pointed at and called. Say it in your words."}</p>
          </div>
          <SubmitButton>Keep the paragraph</SubmitButton>
          {view.summary && view.summary !== view.summaryDraft && view.summaryDraft ? <Button onClick={() => setSummary(view.summaryDraft)}>Draft it anew</Button> : null}
        </form>
      </section>
      <section aria-label="Captions">
        <h2>Captions</h2>
        <form action={keepWords}>
          <FormStatus state={wordsState} />
          <input type="hidden" name="walkthroughId" value={view.id} />
          <div className={wordsError ? "field bad" : "field"}>
            <label htmlFor={`${id}-captions`}>Words with their times, as WebVTT</label>
            <textarea id={`${id}-captions`} name="captions" rows={10} spellCheck value={captions} onChange={(event) => setCaptions(event.target.value)} aria-invalid={wordsError ? true : undefined} aria-describedby={`${id}-captions-hint`} />
            <p className="hint" id={`${id}-captions-hint`}>Each line of the talk: its times, then its words below. Nothing written means no captions.</p>
          </div>
          <div className="bar-line">
            <SubmitButton>Keep the captions</SubmitButton>
            <label className="btn">
              From a file <input type="file" accept=".vtt,text/vtt" className="hush" onChange={takeFile} />
            </label>
            {captions === "" ? <Button onClick={lay}>A line for each chapter</Button> : null}
            {view.captions.trim() !== "WEBVTT" ? <a className="btn" href={`data:text/vtt;charset=utf-8,${encodeURIComponent(view.captions)}`} download="captions.vtt">As a file</a> : null}
          </div>
        </form>
      </section>
    </>
  );
}
