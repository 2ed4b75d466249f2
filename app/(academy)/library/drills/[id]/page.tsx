import type { Metadata } from "next";
import Link from "next/link";
import { HistoryList } from "@/lib/domains/library/components/history-list";
import { ADULT_WORDS, countOf, MOVE_WORDS, SETUP_WORDS, SPORT_WORDS } from "@/lib/domains/library/components/words";
import { getDrill } from "@/lib/domains/library/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Cue } from "@/lib/ui/cue";
import { DefinitionRows } from "@/lib/ui/definition-rows";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

type Props = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `${(await getDrill({ id: (await params).id })).name}, library` };
}

export default async function DrillPage({ params }: Props) {
  const drill = await getDrill({ id: (await params).id });
  const { dose } = drill;
  const perWeek = drill.maxSessionsPerWeek ? `, at most ${countOf(drill.maxSessionsPerWeek, "day")} a week` : "";
  return (
    <Leaf>
      <Opening
        title={drill.name}
        sub={`${drill.purpose} ${SETUP_WORDS[drill.setup] ?? ""}; ${SPORT_WORDS[drill.sport]?.toLowerCase() ?? ""}. Edition ${drill.edition.number}.`}
        actions={
          <>
            {drill.can.propose ? (
              <>
                <ButtonLink href={`/library/drills/${drill.id}/change`}>Propose a change</ButtonLink>
                <ButtonLink kind="plain" href={`/library/drills/${drill.id}/new`}>Propose a new one like it</ButtonLink>
              </>
            ) : null}
            <ButtonLink kind="plain" href="#history">History</ButtonLink>
          </>
        }
      />
      <Entry side="Steps" isHeading>
        <ol className="flow measure" style={{ paddingLeft: "1.4em", listStyle: "decimal" }}>
          {drill.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      </Entry>
      <Entry side="Care" note="said at the act" isHeading>
        <div className="safety measure">
          {drill.safety.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </div>
        {drill.avoidIf.length > 0 ? (
          <p className="measure small">
            <b>Leave it if:</b> {drill.avoidIf.join("; ")}.
          </p>
        ) : null}
        {drill.avoidParts.length > 0 ? (
          <p className="measure small">
            <b>Not with a complaint of:</b> {drill.avoidParts.join(", ")}.
          </p>
        ) : null}
      </Entry>
      <Entry side="How much" isHeading>
        <p>
          {dose.minutes} minutes: {countOf(dose.sets, "set")} of {dose.reps}, {dose.effortPercent} percent effort{perWeek}.
        </p>
        <p className="small quiet">{dose.fullSwings === 0 ? "No swing counts towards the day." : `${countOf(dose.fullSwings, "swing")} count towards the day.`}</p>
      </Entry>
      <Entry side="Cues" isHeading>
        <ul className="plain-list">
          {drill.cues.map(({ text }) => (
            <li key={text}>
              <Cue text={text} />
            </li>
          ))}
        </ul>
      </Entry>
      <Entry side="What it needs" isHeading>
        <DefinitionRows
          rows={[
            { term: "Who must be there", value: `${ADULT_WORDS[drill.adult]}${drill.partnerCount > 0 ? `; ${drill.partnerCount} more ${drill.partnerCount === 1 ? "person" : "people"} (${drill.partner})` : ""}` },
            { term: "Gear", value: drill.gear.length > 0 ? drill.gear.join(", ") : "none" },
            { term: "What one takes", value: drill.equipment.join(", ") },
            { term: "Room", value: `${drill.space}${drill.needsCage ? ", in a netted cage" : ""}` },
            { term: "Balls and head", value: `${drill.hardBalls ? "Written for regulation balls; softer ones may take their place" : "No regulation balls"}${drill.helmet ? "; helmet on" : ""}` },
            { term: "Who it is for", value: `From ${drill.minAge} years; ${drill.levels.join(", ")}` },
            { term: "Learned before", value: drill.requires.length > 0 ? drill.requires.map(({ id, name }) => <Link key={id} href={`/library/drills/${id}`}>{name}</Link>) : null },
            { term: "Easier", value: drill.easier ? <Link href={`/library/drills/${drill.easier.id}`}>{drill.easier.name}</Link> : null },
            { term: "Next", value: drill.next ? <Link href={`/library/drills/${drill.next.id}`}>{drill.next.name}</Link> : null },
          ]}
        />
      </Entry>
      <Entry side="How to know it worked" isHeading>
        <p className="measure">{drill.worked}</p>
        <ul className="plain-list">
          {drill.workedCheckpoints.map(({ name, move }) => (
            <li key={name}>
              {name}: {MOVE_WORDS[move]}
            </li>
          ))}
        </ul>
      </Entry>
      <Entry side="Helps with" isHeading>
        <ul className="rows">
          {drill.faults.map(({ id, name, role }) => (
            <li key={id}>
              <Link href={`/library/faults/${id}`}>{name}</Link>
              <span className="small quiet">{role === "primary" ? "made for it" : "helps too"}</span>
            </li>
          ))}
        </ul>
      </Entry>
      <Entry side="History" isHeading>
        <div id="history">
          <HistoryList history={drill.history} areLinked={drill.can.propose} />
        </div>
      </Entry>
    </Leaf>
  );
}
