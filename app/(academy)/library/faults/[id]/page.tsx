import type { Metadata } from "next";
import Link from "next/link";
import { CheckpointLedger } from "@/lib/domains/library/components/checkpoint-ledger";
import { HistoryList } from "@/lib/domains/library/components/history-list";
import { Neighbourhood, NeighbourList } from "@/lib/domains/library/components/neighbourhood";
import { SETUP_WORDS, SPORT_WORDS } from "@/lib/domains/library/components/words";
import { getFault } from "@/lib/domains/library/queries";
import { ButtonLink } from "@/lib/ui/button";
import { Cue } from "@/lib/ui/cue";
import { DefinitionRows } from "@/lib/ui/definition-rows";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

type Props = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `${(await getFault({ id: (await params).id })).name}, library` };
}

export default async function FaultPage({ params }: Props) {
  const fault = await getFault({ id: (await params).id });
  return (
    <Leaf>
      <Opening
        title={fault.name}
        sub={
          <>
            {fault.synonyms.length > 0 ? (
              <>
                Also called <em>{fault.synonyms.join(", ")}.</em>{" "}
              </>
            ) : null}
            {fault.areaName}; {fault.phaseName}; {fault.isSlapOnly ? "slappers only" : SPORT_WORDS[fault.sport]?.toLowerCase()}. Edition {fault.edition.number}.
          </>
        }
        actions={
          <>
            {fault.can.propose ? <ButtonLink href={`/library/faults/${fault.id}/change`}>Propose a change</ButtonLink> : null}
            <ButtonLink kind="plain" href="#history">History</ButtonLink>
          </>
        }
      />
      <Entry side="What it looks like" isHeading>
        <DefinitionRows
          rows={[
            { term: "From the side", value: fault.looks.side },
            { term: "From behind", value: fault.looks.rear },
            { term: "From the front", value: fault.looks.front },
          ]}
        />
      </Entry>
      <Entry side="Why it hurts the swing" isHeading>
        <p className="measure">{fault.whyItHurts}</p>
        {fault.symptoms.length > 0 ? (
          <p className="measure small">
            <b>What the ball does:</b> {fault.symptoms.map(({ name }) => name).join("; ")}.
          </p>
        ) : null}
      </Entry>
      {fault.lookAlikes.length > 0 ? (
        <Entry side="Look-alikes" isHeading>
          <ul className="keyed">
            {fault.lookAlikes.map(({ other, words, tell }) => (
              <li key={words}>
                {other ? <Link href={`/library/faults/${other.id}`}>{other.name}</Link> : <b>{words}</b>}
                <span>{tell}</span>
              </li>
            ))}
          </ul>
        </Entry>
      ) : null}
      <Entry side="Checkpoints" isHeading>
        {fault.checkpoints.length > 0 ? <CheckpointLedger checkpoints={fault.checkpoints} /> : <p className="measure">Judged by eye. {fault.eyeOnly}</p>}
      </Entry>
      <Entry side="Neighbours" note="the strongest are drawn; dashed: ask about it; dotted: now and then" isHeading>
        <Neighbourhood name={fault.name} comesFrom={fault.comesFrom} leadsTo={fault.leadsTo} />
        <div className="field-pair">
          <NeighbourList title="Comes from" neighbours={fault.comesFrom} none="Nothing we know leads to it." />
          <NeighbourList title="Leads to" neighbours={fault.leadsTo} none="It ends here: what follows is what the ball does." />
        </div>
      </Entry>
      <Entry side="Cues" isHeading>
        <ul className="plain-list">
          {fault.cues.map(({ text }) => (
            <li key={text}>
              <Cue text={text} />
            </li>
          ))}
        </ul>
        <p className="measure small">
          <b>As a player hears it:</b> {fault.playerWording}
        </p>
      </Entry>
      <Entry side="Drills" isHeading>
        {fault.drills.length === 0 ? <p className="quiet">No drill is linked to it yet.</p> : null}
        <ul className="rows">
          {fault.drills.map(({ id, name, role, setup }) => (
            <li key={id}>
              <Link href={`/library/drills/${id}`}>{name}</Link>
              <span className="small quiet">
                {SETUP_WORDS[setup]}
                {role === "primary" ? ", made for it" : ""}
              </span>
            </li>
          ))}
        </ul>
        {fault.noDrillAt.map(({ level, words }) => (
          <p key={level} className="small">
            <b>No drill at {level}:</b> {words}
          </p>
        ))}
      </Entry>
      {fault.safety ? (
        <Entry side="Care" isHeading>
          <p className="safety measure">{fault.safety} Pain means stop and tell an adult; medical questions go to a licensed clinician.</p>
        </Entry>
      ) : null}
      <Entry side="History" isHeading>
        <div id="history">
          <HistoryList history={fault.history} areLinked={fault.can.propose} />
        </div>
      </Entry>
    </Leaf>
  );
}
