import type { Metadata } from "next";
import Link from "next/link";
import { currentActor } from "@/lib/access/current-actor";
import { findSentOf } from "@/lib/domains/clips/sent/queries";
import { getSuggesting } from "@/lib/domains/clips/suggested/queries";
import { getModelDraft } from "@/lib/domains/clips/models/queries";
import { SwingBench } from "@/lib/domains/measurement/components/swing-bench";
import { sheetAddress, sheetAddressOf } from "@/lib/domains/observations/components/sheet/addresses";
import { BackToSheet } from "@/lib/domains/observations/components/sheet/back-to-sheet";
import { getSwingReadings, listComparableReadings } from "@/lib/domains/measurement/queries";
import { Leaf } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export const metadata: Metadata = { title: "Swing view" };

interface SwingViewPageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; frame?: string; sheet?: string; back?: string }>;
}

export default async function SwingViewPage({ params, searchParams }: SwingViewPageProps) {
  const [{ swingId }, { clip: asked, frame, sheet, back }] = await Promise.all([params, searchParams]);
  const [measured, comparable, sent] = await Promise.all([getSwingReadings({ swingId }), listComparableReadings({ swingId }), findSentOf({ swingId })]);
  const mayKeepModel = await getModelDraft.operation.permits(await currentActor(), { swingId });
  const { swing } = measured;
  const own = swing.clips.find(({ clip }) => clip.id === asked) ?? swing.clips[0];
  const suggesting = own && (await getSuggesting({ clipId: own.clip.id }));
  const cameFrom = sheetAddressOf(sheet, back);
  const further: readonly (readonly [string, string])[] = [
    [`/swings/${swingId}/beside${own ? `?clip=${own.clip.id}` : ""}`, "Beside another"],
    [`/players/${swing.playerId}/clips/new?swing=${swingId}`, "Another camera"],
    [`/swings/${swingId}/clips`, "Sort the clips"],
    ...(mayKeepModel ? [[`/swings/${swingId}/model`, "Keep as a model"] as const] : []),
    [`/players/${swing.playerId}`, swing.playerName],
  ];
  const names = clipNames(swing.clips.map(({ clip }) => clip.view));
  return (
    <Leaf kind="swing">
      <div className="bar-line">
        <h1 className="as-lead">Swing view</h1>
        <span className="quiet small only-wide">
          {swing.playerName}, from the {swing.side}, {dayWords(swing.filmedOn)}
        </span>
        <span className="push" />
        {cameFrom ? <BackToSheet href={cameFrom} /> : null}
        {swing.clips.length > 1 ? (
          <nav className="pick" aria-label="Which clip">
            {swing.clips.map(({ clip }, i) => (
              <Link key={clip.id} href={`/swings/${swingId}?clip=${clip.id}`} aria-current={clip.id === own?.clip.id ? "true" : undefined}>
                {names[i]}
              </Link>
            ))}
          </nav>
        ) : null}
        {cameFrom ? null : (
          <Link className="btn" href={sheetAddress({ swingId, clipId: own?.clip.id })}>
            Checkpoint sheet
          </Link>
        )}
        {further.map(([href, words]) => (
          <Link key={href} className="btn only-wide" href={href}>
            {words}
          </Link>
        ))}
        <details className="menu only-phone">
          <summary className="btn">More</summary>
          <ul>
            {further.map(([href, words]) => (
              <li key={href}>
                <Link href={href}>{words}</Link>
              </li>
            ))}
          </ul>
        </details>
      </div>
      {!swing.isShown || !own || !suggesting ? (
        <Problem
          happened={`No consent to film ${swing.playerName} for lessons is in force, so the film is not shown.`}
          kept="The clip and all that was placed on it are kept."
          todo="The family or the office can give a consent."
        />
      ) : (
        <SwingBench
          key={own.clip.id} measured={measured} comparable={comparable} clipId={own.clip.id} suggesting={suggesting} sent={sent} startFrame={frameIn(frame, own.clip.frameTimes.ticks.length)}
          caption={swing.clips.length > 1 ? `This swing, ${names[swing.clips.indexOf(own)]?.toLowerCase()}` : "This swing"}
        />
      )}
    </Leaf>
  );
}

/** The frame that an address names, where the clip has it. */
function frameIn(named: string | undefined, frameCount: number): number | undefined {
  const frame = named ? Number(named) : NaN;
  return Number.isInteger(frame) && frame >= 0 && frame < frameCount ? frame : undefined;
}

const VIEW_WORDS = { side: "Side", rear: "Behind", front: "Front" } as const;

/** "Side", "Front", "Side 2": a view that is there twice is counted. */
function clipNames(views: readonly (keyof typeof VIEW_WORDS)[]): readonly string[] {
  return views.map((view, i) => {
    const before = views.slice(0, i).filter((it) => it === view).length;
    return before > 0 ? `${VIEW_WORDS[view]} ${before + 1}` : VIEW_WORDS[view];
  });
}

const DAY = new Intl.DateTimeFormat("en-US", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
const dayWords = (day: string) => DAY.format(new Date(`${day}T00:00:00Z`));
