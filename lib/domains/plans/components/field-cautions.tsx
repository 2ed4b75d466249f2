import { english, type Say } from "@/lib/core/words/say";
import type { FieldCaution } from "@/lib/prescribe/field-cautions";

/** Cautions for the place: a sentence each in the open, the rows with their source behind one press. Local rules go first. */
export function FieldCautions({ cautions, say = english }: { cautions: readonly FieldCaution[]; say?: Say }) {
  if (cautions.length === 0) return null;
  return (
    <section className="flow small" aria-label={say("Outdoors")}>
      <p className="safety">
        <b>{say("Outdoors.")}</b> {cautions.filter(({ id }) => id !== "hours").map(({ words }) => words).join(" ")}
      </p>
      <details>
        <summary className="btn plain">{say("For grown-ups: the limits, and where they come from")}</summary>
        <div className="flow">
          <p>{say("Rules of the league and of the place go first.")}</p>
          {cautions.map(({ id, rows, source, lang }) => (
            <div key={id}>
              <h3 className="label">{say(HEADS[id])}</h3>
              <ul lang={lang} style={{ listStyle: "disc", paddingInlineStart: "1.25em" }}>
                {rows.map((row) => (
                  <li key={row}>{row}</li>
                ))}
              </ul>
              <p className="note">
                {say("Source:")} <span lang={say.asWritten}>{source}</span>.
              </p>
            </div>
          ))}
        </div>
      </details>
    </section>
  );
}

const HEADS = { lightning: "Thunder and lightning", heat: "Heat", throwing: "Pitching", hours: "A week of sport" } as const;
