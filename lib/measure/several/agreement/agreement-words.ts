/** Words for a chance-corrected agreement. */
export type AgreementWord = "poor" | "slight" | "fair" | "moderate" | "substantial" | "almost perfect";

const UP_TO: readonly (readonly [number, AgreementWord])[] = [[0.2, "slight"], [0.4, "fair"], [0.6, "moderate"], [0.8, "substantial"], [1, "almost perfect"]];

/**
 * The word for a kappa; null when there is none. Source: Landis & Koch 1977, Biometrics 33:159-174 (their bands have no
 * gaps: 0.205 is fair).
 */
export function agreementWord(kappa: number | null): AgreementWord | null {
  if (kappa === null || Number.isNaN(kappa)) return null;
  if (kappa < 0) return "poor";
  return UP_TO.find(([limit]) => kappa <= limit)?.[1] ?? "almost perfect";
}
