import { expect, it } from "vitest";
import { ruleLooksAt } from "@/lib/measure/null-rule-looks-at";

const looksAt = (left: string, right: string | number = 0) => {
  const { points, lengths } = ruleLooksAt({ say: "why", left, op: ">", right });
  return { points: [...points].sort(), lengths: [...lengths].sort() };
};

it("a rule looks at the points it names, not at those whose names contain them", () => {
  expect(looksAt("u(heel_b, t_contact)")).toEqual({ points: ["heel_b"], lengths: [] });
});
it("a place stands for its points and a turn for its two points and their width", () => {
  expect(looksAt("v(midhip, t_plant) / T").points).toEqual(expect.arrayContaining(["hip_b", "hip_f"]));
  expect(looksAt("v(midhip, t_plant) / T").lengths).toEqual(["T"]);
  expect(looksAt("psi_s(t_contact)", "0.8 * Lb")).toEqual({ points: ["sh_b", "sh_f"], lengths: ["Lb", "Ws"] });
});
it("a fact of the swing looks at nothing in the picture", () => {
  const { points, lengths } = ruleLooksAt({ say: "why", fact: "task", is: ["tee"] });
  expect(points.size + lengths.size).toBe(0);
});
