import Link from "next/link";
import { ActButton } from "@/lib/domains/identity/components/act-button";
import { readNotice } from "../actions";
import type { NoticeView } from "../view";

const KIND_WORDS: Readonly<Record<string, (name: string) => string>> = {
  "pain-reported": (name) => `${name} reported pain. Swings are paused.`,
  "incident-noted": (name) => `An incident of ${name} was noted. Swings are paused.`,
  "pause-cleared-by-coach": (name) => `A coach cleared the pause of ${name}. The family’s part is open.`,
  "pause-cleared-by-family": (name) => `The family cleared the pause of ${name}. A coach’s part is open.`,
  "pause-ended": (name) => `${name} may swing again: both sides cleared the pause.`,
};

interface NoticeListProps {
  notices: readonly NoticeView[];
  /** The page of a player for the person who reads. */
  hrefOf: (playerId: string) => string;
  /** Words of the kinds that later domains write. */
  words?: Readonly<Record<string, (name: string) => string>>;
}

/** What waits for the reader, unread first as it came. */
export function NoticeList({ notices, hrefOf, words = {} }: NoticeListProps) {
  return (
    <ul className="plain-list">
      {notices.map((notice) => {
        const say = words[notice.kind] ?? KIND_WORDS[notice.kind] ?? ((name: string) => `Something waits about ${name}.`);
        return (
          <li key={notice.id} className="bar-line">
            <Link href={hrefOf(notice.playerId)}>{say(notice.playerName)}</Link>
            {notice.isRead ? null : (
              <ActButton action={readNotice} fields={{ noticeId: notice.id }} kind="plain" label={`Put away: ${say(notice.playerName)}`}>
                Put away
              </ActButton>
            )}
          </li>
        );
      })}
    </ul>
  );
}
