import { Tally } from "@/lib/ui/count-row";
import { uiWords } from "@/lib/ui/words/ui-words";

/** How often something was seen, in the line: dots and words; what does not show it stands outside the sum. */
export function SeenCount({ seen, judged, notVisible }: { seen: number; judged: number; notVisible: number }) {
  return (
    <>
      <Tally count={seen} total={judged} notVisible={notVisible} /> {notVisible > 0 ? uiWords.count.ofThatShowIt(seen, judged) : uiWords.count.of(seen, judged)}
    </>
  );
}
