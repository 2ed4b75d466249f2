"use client";

import { Button } from "@/lib/ui/button";

interface TheirsProps {
  /** Which part of the text, as its field is labelled. */
  label: string;
  by: string;
  words: string;
  onTake: () => void;
  onKeepMine: () => void;
}

/** What another coach has kept meanwhile, beside the words in the box: nothing is lost, and one of the two is chosen. */
export function Theirs({ label, by, words, onTake, onKeepMine }: TheirsProps) {
  return (
    <div className="trouble small flow" role="group" aria-label={`${label}: ${by} was faster`}>
      <p>
        <b>{by} was faster.</b> {words ? <>Kept now: “{words}”</> : "Nothing stands here now."} Your own words are still in the box.
      </p>
      <div className="bar-line">
        <Button onClick={onTake} aria-label={`${label}: take the words of ${by}`}>
          Take these
        </Button>
        <Button onClick={onKeepMine} aria-label={`${label}: put mine over them`}>
          Put mine over them
        </Button>
      </div>
    </div>
  );
}
