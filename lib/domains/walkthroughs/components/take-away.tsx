"use client";
import { useActionState } from "react";
import { IDLE } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { FormStatus } from "@/lib/ui/form-status";
import { useSay } from "@/lib/ui/words/use-say";
import { askFilm } from "../actions";
import { walkthroughAddress } from "../schema";
import type { WalkthroughView } from "../view";

/** What can be taken away: a film that plays anywhere, and a parcel that opens without us. */
export function TakeAway({ id, film }: Pick<WalkthroughView, "id" | "film">) {
  const say = useSay();
  const [state, ask] = useActionState(askFilm, IDLE);
  return (
    <section className="opens flow no-print" aria-label={say("Take it away")}>
      <h2>{say("Take it away")}</h2>
      <div className="bar-line">
        <a className="btn" href={walkthroughAddress.parcel(id)} download>{say("Voice, words and stills")}</a>
        {film === "ready" ? (
          <a className="btn" href={walkthroughAddress.film(id)} download>{say("The film")}</a>
        ) : (
          <form action={ask}>
            <input type="hidden" name="walkthroughId" value={id} />
            <FormStatus state={state} />
            {film === "asked" ? <p className="note" role="status">{say("The film is being made. Look again in a minute or two.")}</p> : <Button type="submit">{film === "out-of-date" ? say("Make the film anew") : say("Make a film of it")}</Button>}
          </form>
        )}
      </div>
      {film === "out-of-date" ? <p className="note">{say("Something changed since the film was made, so the old one is not given out any more.")}</p> : null}
      {film === "failed" ? <p className="note">{say("The film could not be made. Nothing else was touched; please try again.")}</p> : null}
    </section>
  );
}
