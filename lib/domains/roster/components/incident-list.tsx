import Link from "next/link";
import { Entry } from "@/lib/ui/entry";
import { State } from "@/lib/ui/state";
import { INCIDENT_WORDS } from "../incidents/rules";
import type { IncidentView } from "../incidents/view";
import { dayWords, partWords } from "./words";

/** Incident notes, newest first: what happened, who was told, who has cleared it. */
export function IncidentList({ incidents, hrefOf }: { incidents: readonly IncidentView[]; hrefOf: (playerId: string) => string }) {
  return incidents.map((incident) => (
    <Entry key={incident.id} side={dayWords(incident.happenedOn)} label={`${INCIDENT_WORDS[incident.kind]}, ${incident.playerName}`} isStrong>
      <h2 className="as-h3">
        <Link href={hrefOf(incident.playerId)}>{incident.playerName}</Link>: {INCIDENT_WORDS[incident.kind].toLowerCase()}
        {incident.kind === "head-blow" ? "" : `, ${partWords(incident.part)}`}
      </h2>
      <p>{incident.words}</p>
      {incident.firstAid ? <p>Done at once: {incident.firstAid}</p> : null}
      <p className="note">
        Noted by {incident.notedBy}. {incident.told.length > 0 ? `Told: ${incident.told.join(", ")}.` : "Nobody could be told: the player has no guardian and no coach here."}
      </p>
      <p>{standing(incident)}</p>
    </Entry>
  ));
}

function standing({ isClearedByCoach, isClearedByFamily, clinicianSaidOn }: IncidentView) {
  if (isClearedByCoach && isClearedByFamily) {
    return <State is="seen">Cleared by coach and family{clinicianSaidOn ? `; a clinician said yes on ${dayWords(clinicianSaidOn)}` : ""}</State>;
  }
  const waits = [isClearedByCoach ? null : "a coach", isClearedByFamily ? null : "the family"].filter((who) => who !== null);
  return <State is="waiting">Swings are paused until {waits.join(" and ")} clear{waits.length === 1 ? "s" : ""} it</State>;
}
