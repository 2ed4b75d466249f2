import { describe, expect, it } from "vitest";
import { currentItem } from "./current-item";

const items = [
  { href: "/day", label: "Cage day" },
  { href: "/players", label: "Players", also: ["/swings"] },
  { href: "/players/groups", label: "Groups" },
];

describe("currentItem", () => {
  it("marks the item whose page or sub-page is open", () => {
    expect(currentItem("/players", items)?.label).toBe("Players");
    expect(currentItem("/players/abc/plan", items)?.label).toBe("Players");
  });
  it("prefers the longest path of two that hold the page", () => {
    expect(currentItem("/players/groups/4", items)?.label).toBe("Groups");
  });
  it("counts the other paths of an item as its own", () => {
    expect(currentItem("/swings/7", items)?.label).toBe("Players");
  });
  it("never takes the beginning of a longer word for a path", () => {
    expect(currentItem("/daylight", items)).toBeUndefined();
  });
});
