import type { Spot } from "../rules";

/** The marked corners of home plate, drawn in an svg whose units `toScreen` gives. */
export function PlateCorners({ corners, toScreen }: { readonly corners: readonly Spot[]; readonly toScreen: (spot: Spot) => Spot }) {
  return (
    <g aria-hidden="true" fill="none" stroke="currentColor" strokeWidth={2}>
      {corners.map((corner, i) => {
        const { x, y } = toScreen(corner);
        return <path key={i} d={`M${x - 7} ${y}H${x + 7}M${x} ${y - 7}V${y + 7}`} />;
      })}
    </g>
  );
}
