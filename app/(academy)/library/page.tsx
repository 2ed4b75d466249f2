import Link from "next/link";
import { currentActor } from "@/lib/access/current-actor";
import { SuggestionErrors } from "@/lib/domains/clips/components/suggestion-errors";
import { listModels } from "@/lib/domains/clips/models/queries";
import { getSuggestionErrors } from "@/lib/domains/clips/suggested/queries";
import { SearchResults, FaultList, SetupDrills } from "@/lib/domains/library/components/result-lists";
import { SearchBox } from "@/lib/domains/library/components/search-box";
import { countOf } from "@/lib/domains/library/components/words";
import { getLibraryIndex, searchLibrary } from "@/lib/domains/library/queries";
import { listOverruleHints } from "@/lib/domains/observations/overruling/queries";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Library" };

export default async function LibraryPage({ searchParams }: { searchParams: Promise<{ text?: string | string[] }> }) {
  const actor = await currentActor();
  const mayKeepModels = await listModels.operation.permits(actor, {});
  const mayReadOverrules = await listOverruleHints.operation.permits(actor, {});
  const { text: given } = await searchParams;
  const text = (Array.isArray(given) ? given[0] : given)?.trim().slice(0, 200) ?? "";
  const index = await getLibraryIndex({});
  const found = text === "" ? null : await searchLibrary({ text });
  const errors = !found && (await getSuggestionErrors.operation.permits(actor, {})) ? await getSuggestionErrors({}) : null;
  return (
    <Leaf>
      <Opening
        title="Library"
        sub={`What this academy teaches with. Edition ${index.edition.number} is in force.`}
        actions={
          <>
            <Link className="btn" href="/library/proposals">
              {index.openProposalCount > 0 ? `${countOf(index.openProposalCount, "open proposal")}` : "Proposals"}
            </Link>
            <Link className="btn plain" href="/library/editions">
              Editions
            </Link>
            {mayReadOverrules ? (
              <Link className="btn plain" href="/library/overruled">
                Overruled
              </Link>
            ) : null}
            {mayKeepModels ? (
              <Link className="btn plain" href="/library/models">
                Model swings
              </Link>
            ) : null}
          </>
        }
      />
      <Entry side="Find" label="Find">
        <SearchBox text={text} />
      </Entry>
      {found ? <SearchResults found={found} /> : null}
      {found
        ? null
        : index.areas.map(({ id, name, covers, question, faults }) => (
            <Entry key={id} side={name} note={question ?? undefined} isHeading>
              <p className="small quiet">{covers}</p>
              <FaultList faults={faults} />
            </Entry>
          ))}
      {found ? null : (
        <Entry side="Drills" note="by how they are set up" isHeading>
          {index.setups.map(({ setup, drills }) => (
            <SetupDrills key={setup} setup={setup} drills={drills} />
          ))}
        </Entry>
      )}
      {errors ? (
        <Entry side="Suggested points" note="how far off they were" isHeading>
          <SuggestionErrors errors={errors} />
        </Entry>
      ) : null}
    </Leaf>
  );
}
