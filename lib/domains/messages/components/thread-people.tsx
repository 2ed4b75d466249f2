import { english, type Say } from "@/lib/core/words/say";
import type { ThreadView } from "../view";

/** Who reads what is written here: the guardians by name first, then the others. */
export function ThreadPeople({ view, say = english }: { view: Pick<ThreadView, "people" | "givenName" | "isMinor">; say?: Say }) {
  const named = (part: string) => view.people.filter((one) => one.part === part).map(({ name, isMe }) => (isMe ? say("{name} (you)", { name }) : name));
  const [players, guardians, coaches] = [named("player"), named("guardian"), named("coach")];
  const rows = [
    { what: guardians.length > 1 ? say("Guardians") : say("Guardian"), who: guardians, note: guardians.length > 0 ? "" : view.isMinor ? say("nobody is linked now") : say("none; an adult’s thread needs none") },
    { what: say("Player"), who: players, note: players.length > 0 ? "" : say("{name} has no sign-in yet", { name: view.givenName }) },
    { what: coaches.length > 1 ? say("Coaches") : say("Coach"), who: coaches, note: coaches.length > 0 ? say("; the head coach can read along") : say("nobody is assigned today; the head coach can read") },
  ];
  return (
    <section className="in-thread" aria-label={say("Who is in this thread")}>
      <p className="label">{say("Everybody here reads every message")}</p>
      <dl>
        {rows.map(({ what, who, note }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{say.list(who)}</b>
              {note}
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
