import { english, type Say } from "@/lib/core/words/say";
import { CALL_EMERGENCY_SERVICES, HEAD_BLOW_NOW, HEAD_BLOW_RETURN } from "../incidents/rules";

/** The usual caution after a blow to the head: what to do now, when to call for help, who clears the return. No diagnosis. */
export function HeadBlowCaution({ say = english }: { say?: Say }) {
  return (
    <div className="flow" role="note" aria-label={say("After a blow to the head")}>
      <p>
        <b>{say(HEAD_BLOW_NOW)}</b>
      </p>
      <p>{say("Call the emergency services at once when the player:")}</p>
      <ul style={{ listStyle: "disc", paddingInlineStart: "1.25em" }}>
        {CALL_EMERGENCY_SERVICES.map((sign) => (
          <li key={sign}>{say(sign)}</li>
        ))}
      </ul>
      <p>{say(HEAD_BLOW_RETURN)}</p>
    </div>
  );
}
