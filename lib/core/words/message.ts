import { LOCALES, type Language } from "./languages";

/** What stands in a gap of a sentence. */
export type Gap = string | number;

interface Plural {
  readonly name: string;
  readonly branches: ReadonlyMap<string, string>;
}

const PLURAL = /^\s*([A-Za-z]+)\s*,\s*plural\s*,\s*([\s\S]*)$/;

/** From an opening brace to the one that closes it. */
function closingOf(text: string, open: number): number {
  let depth = 0;
  for (let at = open; at < text.length; at += 1) {
    if (text[at] === "{") depth += 1;
    if (text[at] === "}" && --depth === 0) return at;
  }
  throw new SyntaxError(`a brace is not closed: ${text}`);
}

function pluralOf(inside: string): Plural | null {
  const found = PLURAL.exec(inside);
  if (!found) return null;
  const [, name = "", rest = ""] = found;
  const branches = new Map<string, string>();
  for (let at = rest.indexOf("{"), from = 0; at !== -1; at = rest.indexOf("{", from)) {
    const end = closingOf(rest, at);
    branches.set(rest.slice(from, at).trim(), rest.slice(at + 1, end));
    from = end + 1;
  }
  return { name, branches };
}

/** The names of a sentence's gaps, sorted, each once. */
export function gapsOf(message: string): readonly string[] {
  const names = new Set<string>();
  for (let at = message.indexOf("{"); at !== -1; at = message.indexOf("{", closingOf(message, at))) {
    const inside = message.slice(at + 1, closingOf(message, at));
    names.add(pluralOf(inside)?.name ?? inside.trim());
  }
  return [...names].sort();
}

/**
 * A sentence with its gaps filled, in ICU's syntax as far as we use it: `{name}` and `{count, plural, =0 {none} one {# swing}
 * other {# swings}}`. Numbers stand in the language's own digits; which plural a number takes is the language's rule.
 * @throws RangeError for a gap that is not given, SyntaxError for a brace that is not closed
 */
export function fill(message: string, language: Language, gaps: Readonly<Record<string, Gap>> = {}): string {
  const shown = (value: Gap) => (typeof value === "number" ? new Intl.NumberFormat(LOCALES[language], { useGrouping: false }).format(value) : value);
  const given = (name: string) => {
    const value = gaps[name];
    if (value === undefined) throw new RangeError(`nothing was given for {${name}} of: ${message}`);
    return value;
  };
  let text = "";
  let from = 0;
  for (let at = message.indexOf("{"); at !== -1; at = message.indexOf("{", from)) {
    const end = closingOf(message, at);
    const plural = pluralOf(message.slice(at + 1, end));
    text += message.slice(from, at);
    if (plural) {
      const count = Number(given(plural.name));
      const rule = new Intl.PluralRules(LOCALES[language]).select(count);
      const branch = plural.branches.get(`=${count}`) ?? plural.branches.get(rule) ?? plural.branches.get("other") ?? "";
      text += fill(branch.replaceAll("#", shown(count)), language, gaps);
    } else text += shown(given(message.slice(at + 1, end).trim()));
    from = end + 1;
  }
  return text + message.slice(from);
}
