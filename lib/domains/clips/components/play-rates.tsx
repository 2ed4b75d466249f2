"use client";
import { useId } from "react";

/** Parts of real time, each with its word. */
export const rates: readonly (readonly [number, string])[] = [[1, "Real"], [1 / 2, "Half"], [1 / 4, "Quarter"], [1 / 8, "Eighth"]];

/** At which part of real time is played. */
export function PlayRates({ rate: chosen, onRate }: { readonly rate: number; readonly onRate: (rate: number) => void }) {
  const name = useId();
  return (
    <fieldset className="pick">
      <legend className="hush">Play at</legend>
      {rates.map(([rate, words]) => (
        <label key={rate}>
          <input type="radio" name={name} checked={chosen === rate} onChange={() => onRate(rate)} /> {words}
        </label>
      ))}
    </fieldset>
  );
}
