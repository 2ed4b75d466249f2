import { listKeptLetters } from "@/lib/domains/identity/queries";
import { Empty } from "@/lib/ui/empty";
import { Entry } from "@/lib/ui/entry";
import { Leaf, Opening } from "@/lib/ui/leaf";

export const metadata = { title: "Post" };

/** The letters of a demo without a mail server; elsewhere there is no such page. */
export default async function PostPage() {
  const letters = await listKeptLetters({});
  return (
    <Leaf>
      <Opening title="Post" sub="This demo has no mail server, so its letters stay here. Newest first." />
      {letters.length === 0 ? <Empty title="No letters yet.">Invite somebody or ask for a new password, and the letter lies here a moment later.</Empty> : null}
      {letters.map((letter) => (
        <Entry key={`${letter.at} ${letter.to}`} side={letter.to} note={letter.at.replace("T", " ").slice(0, 16)}>
          <p>
            <b>{letter.subject}</b>
          </p>
          <p className="as-written">{letter.text.replace(letter.link ?? "", "").trim()}</p>
          {letter.link ? (
            <p>
              <a href={letter.link}>Open the link of this letter</a>
            </p>
          ) : null}
        </Entry>
      ))}
    </Leaf>
  );
}
