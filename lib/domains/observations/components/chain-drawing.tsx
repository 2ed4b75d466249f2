import { useId } from "react";
import type { ChainView } from "../working-out/view";
import { layOutChainDown } from "./chain-down";
import { layOutChain, loopAround, type ChainLayout, type PlacedNode } from "./chain-layout";
import { words } from "./words";

const LINE = 16;

/** The look of a box: filled seen, open not seen, hatched not called or not visible, dashed to ask. */
function lookOf({ node }: PlacedNode): "seen" | "not-seen" | "not-visible" | "to-ask" {
  if (node.role === "ask") return "to-ask";
  return node.sight;
}

/** The chain in the order of the swing, from left to right, on a phone from top to bottom; what is drawn is also there as text. */
export function ChainDrawing({ chain, isFirst, name }: { chain: ChainView; isFirst: boolean; name: string }) {
  const first = isFirst ? chain.candidate : null;
  return (
    <div className="chain" tabIndex={0} role="region" aria-label={words.candidate.chain(name)}>
      <div className="only-wide">
        <Drawing layout={layOutChain(chain)} first={first} />
      </div>
      <div className="only-phone">
        <Drawing layout={layOutChainDown(chain)} first={first} />
      </div>
      <div className="hush">
        <p>{words.candidate.chainIntro}</p>
        {chain.text.length > 0 ? (
          <ul>
            {chain.text.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        ) : (
          <p>{words.candidate.chainAlone}</p>
        )}
      </div>
    </div>
  );
}

function Drawing({ layout, first }: { layout: ChainLayout; first: string | null }) {
  const id = useId();
  const { width, height, nodes, links, labels, ground } = layout;
  const domino = nodes.find(({ node }) => node.id === first);
  return (
    <svg viewBox={`0 0 ${width} ${height}`} style={{ width, minWidth: width, maxWidth: "none" }} aria-hidden="true">
      <defs>
        <pattern id={`${id}-hatch`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V5" className="hatch" />
        </pattern>
      </defs>
      {links.map(({ key, path, tip, isWeak }) => (
        <g key={key}>
          <path d={path} className={isWeak ? "link weak" : "link"} />
          <path d={tip} className="tip" />
        </g>
      ))}
      {nodes.map((placed) => (
        <Box key={placed.node.id} placed={placed} hatch={`url(#${id}-hatch)`} />
      ))}
      {domino ? <path d={loopAround(domino)} className="first-domino" /> : null}
      {ground ? <path d={ground} className="ground" /> : null}
      {labels.map(({ name, x, y }) => (
        <text key={`${x} ${y}`} className="ax" x={x} y={y} textAnchor="middle">
          {name}
        </text>
      ))}
    </svg>
  );
}

function Box({ placed, hatch }: { placed: PlacedNode; hatch: string }) {
  const { x, y, width, height, lines } = placed;
  const look = lookOf(placed);
  const textTop = y + height / 2 - ((lines.length - 1) * LINE) / 2 + 5;
  const text = look === "seen" ? "inv" : undefined;
  return (
    <g>
      <rect x={x} y={y} width={width} height={height} className={`node ${look}`} />
      {look === "not-visible" ? (
        <>
          <rect x={x + 1} y={y + 1} width={width - 2} height={height - 2} fill={hatch} />
          <rect x={x + 7} y={y + 6} width={width - 14} height={height - 12} className="paper" fill="var(--paper)" />
        </>
      ) : null}
      {lines.map((line, index) => (
        <text key={line} x={x + width / 2} y={textTop + index * LINE} textAnchor="middle" className={text}>
          {line}
        </text>
      ))}
    </g>
  );
}
