import type { Metadata } from "next";
import Link from "next/link";
import { BesideViewer } from "@/lib/domains/clips/components/beside/beside-viewer";
import { getSwingsBeside } from "@/lib/domains/measurement/queries";
import { Leaf } from "@/lib/ui/leaf";

export const metadata: Metadata = { title: "Swings side by side" };

interface BesidePageProps {
  params: Promise<{ swingId: string }>;
  searchParams: Promise<{ clip?: string; with?: string }>;
}

const COUNTS = ["One", "Two", "Three", "Four"] as const;

export default async function BesidePage({ params, searchParams }: BesidePageProps) {
  const [{ swingId }, { clip, with: others }] = await Promise.all([params, searchParams]);
  const { clips, groups, playerName } = await getSwingsBeside({ swingId, clipId: clip || undefined, withIds: others ? others.split(",") : [] });
  const isOneSwing = clips.every((it) => it.clip.swingId === swingId);
  return (
    <Leaf kind="swing">
      <div className="bar-line">
        <h1 className="as-lead">{COUNTS[clips.length - 1]} {isOneSwing ? (clips.length === 1 ? "camera" : "cameras of one swing") : "clips"} on one clock</h1>
        <span className="quiet small only-wide">{playerName}</span>
        <span className="push" />
        <Link className="btn" href={`/swings/${swingId}${clip ? `?clip=${clip}` : ""}`}>
          Work on this swing
        </Link>
      </div>
      <BesideViewer clips={clips} groups={groups} />
    </Leaf>
  );
}
