/** Joins the class names that apply; what is false or empty is left out. */
export function classNames(...names: ReadonlyArray<string | false | null | undefined>): string {
  return names.filter(Boolean).join(" ");
}
