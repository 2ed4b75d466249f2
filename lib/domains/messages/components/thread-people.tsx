import type { ThreadView } from "../view";

const listed = (names: readonly string[]) => (names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : (names[0] ?? ""));

/** Who reads what is written here: the guardians by name first, then the others. */
export function ThreadPeople({ view }: { view: Pick<ThreadView, "people" | "givenName" | "isMinor"> }) {
  const named = (part: string) => view.people.filter((one) => one.part === part).map(({ name, isMe }) => (isMe ? `${name} (you)` : name));
  const [players, guardians, coaches] = [named("player"), named("guardian"), named("coach")];
  const rows = [
    { what: guardians.length > 1 ? "Guardians" : "Guardian", who: guardians, note: guardians.length > 0 ? "" : view.isMinor ? "nobody is linked now" : "none; an adult’s thread needs none" },
    { what: "Player", who: players, note: players.length > 0 ? "" : `${view.givenName} has no sign-in yet` },
    { what: coaches.length > 1 ? "Coaches" : "Coach", who: coaches, note: coaches.length > 0 ? "; the head coach can read along" : "nobody is assigned today; the head coach can read" },
  ];
  return (
    <section className="in-thread" aria-label="Who is in this thread">
      <p className="label">Everybody here reads every message</p>
      <dl>
        {rows.map(({ what, who, note }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{listed(who)}</b>
              {note}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
