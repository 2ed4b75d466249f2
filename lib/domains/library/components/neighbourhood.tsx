import Link from "next/link";
import type { NeighbourView } from "../view";
import { KIND_WORDS, strengthWord, WEAK_BELOW } from "./words";

const [BOX_WIDTH, BOX_HEIGHT, STEP, TOP] = [210, 50, 64, 8];
const [LEFT, MIDDLE, RIGHT] = [6, 270, 534];
const DRAWN = 6;
const LETTERS = 27;

/** A name in at most two lines of about so many letters; what does not fit ends in dots, and is whole in the list below. */
function linesOf(name: string): string[] {
  const lines: string[] = [""];
  for (const word of name.split(" ")) {
    const last = lines.length - 1;
    if (`${lines[last]} ${word}`.trim().length <= LETTERS || lines[last] === "") lines[last] = `${lines[last]} ${word}`.trim();
    else lines.push(word);
  }
  return lines.length <= 2 ? lines : [lines[0] ?? "", `${lines[1] ?? ""} …`];
}

function Box({ x, y, name, kind }: { x: number; y: number; name: string; kind: NeighbourView["kind"] | "here" }) {
  const lines = linesOf(name);
  const first = y + BOX_HEIGHT / 2 + 5 - (lines.length - 1) * 9;
  return (
    <>
      <rect x={x} y={y} width={BOX_WIDTH} height={BOX_HEIGHT} className={kind === "here" ? "node seen" : kind === "fault" ? "node" : "node to-ask"} />
      {lines.map((line, index) => (
        <text key={line} x={x + BOX_WIDTH / 2} y={first + index * 18} textAnchor="middle" className={kind === "here" ? "inv" : undefined}>
          {line}
        </text>
      ))}
    </>
  );
}

function Arrow({ from, to, isWeak }: { from: readonly [number, number]; to: readonly [number, number]; isWeak: boolean }) {
  const bend = (from[0] + to[0]) / 2;
  const end = to[0] - 8;
  return (
    <>
      <path d={`M${from[0]} ${from[1]}C${bend} ${from[1]} ${bend} ${to[1]} ${end} ${to[1]}`} className={isWeak ? "link weak" : "link"} />
      <path d={`M${end - 1} ${to[1] - 5}L${to[0]} ${to[1]}L${end - 1} ${to[1] + 5}z`} className="tip" />
    </>
  );
}

/** The fault between what it comes from and what it leads to, strongest first. Dashed: to ask; dotted link: weak. */
export function Neighbourhood({ name, comesFrom, leadsTo }: { name: string; comesFrom: readonly NeighbourView[]; leadsTo: readonly NeighbourView[] }) {
  const sides = [comesFrom.slice(0, DRAWN), leadsTo.slice(0, DRAWN)] as const;
  const rowCount = Math.max(1, sides[0].length, sides[1].length);
  const yOf = (index: number, count: number) => TOP + (index + (rowCount - count) / 2) * STEP;
  const height = TOP + rowCount * STEP + 26;
  const middleY = yOf(0, 1);
  const portOf = (index: number, count: number) => middleY + BOX_HEIGHT / 2 + (index - (count - 1) / 2) * 7;
  return (
    <div className="chain" tabIndex={0} role="region" aria-label="Drawing of the neighbours; the same in words follows">
      <svg viewBox={`0 0 750 ${height}`} aria-hidden="true">
        {sides[0].map(({ id, strength }, index) => (
          <Arrow key={id} from={[LEFT + BOX_WIDTH, yOf(index, sides[0].length) + BOX_HEIGHT / 2]} to={[MIDDLE, portOf(index, sides[0].length)]} isWeak={strength < WEAK_BELOW} />
        ))}
        {sides[1].map(({ id, strength }, index) => (
          <Arrow key={id} from={[MIDDLE + BOX_WIDTH, portOf(index, sides[1].length)]} to={[RIGHT, yOf(index, sides[1].length) + BOX_HEIGHT / 2]} isWeak={strength < WEAK_BELOW} />
        ))}
        {sides[0].map((neighbour, index) => (
          <Box key={neighbour.id} x={LEFT} y={yOf(index, sides[0].length)} name={neighbour.name} kind={neighbour.kind} />
        ))}
        <Box x={MIDDLE} y={middleY} name={name} kind="here" />
        {sides[1].map((neighbour, index) => (
          <Box key={neighbour.id} x={RIGHT} y={yOf(index, sides[1].length)} name={neighbour.name} kind={neighbour.kind} />
        ))}
        <text className="ax" x={LEFT + BOX_WIDTH / 2} y={height - 6} textAnchor="middle">comes from</text>
        <text className="ax" x={RIGHT + BOX_WIDTH / 2} y={height - 6} textAnchor="middle">leads to</text>
      </svg>
    </div>
  );
}

/** The same in words, whole: each neighbour with how it comes about. */
export function NeighbourList({ title, neighbours, none }: { title: string; neighbours: readonly NeighbourView[]; none: string }) {
  return (
    <div>
      <h3>{title}</h3>
      {neighbours.length === 0 ? <p className="quiet">{none}</p> : null}
      <ul className="plain-list">
        {neighbours.map(({ id, name, kind, mechanism, strength }) => (
          <li key={id}>
            {kind === "fault" ? <Link href={`/library/faults/${id}`}>{name}</Link> : <b>{name}</b>}{" "}
            <span className="small quiet">
              {strengthWord(strength)}, {KIND_WORDS[kind]}
            </span>
            <br />
            <span className="small">{mechanism}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
