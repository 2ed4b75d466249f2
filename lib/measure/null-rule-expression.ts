/** An expression of a null rule: a number, a name, a call, or two expressions under + - * /. */
export type RuleExpression =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "name"; readonly name: string }
  | { readonly kind: "call"; readonly name: string; readonly args: readonly RuleExpression[] }
  | { readonly kind: "binary"; readonly op: "+" | "-" | "*" | "/"; readonly left: RuleExpression; readonly right: RuleExpression };

const TOKEN = /\s*(?:(\d+(?:\.\d+)?)|([A-Za-z_][A-Za-z_0-9]*)|([-+*/(),]))/y;

/**
 * Parses one side of a null rule. Numbers, names, calls, + - * /, a leading minus, parentheses; nothing else.
 * @throws RangeError that says where the text cannot be read
 */
export function parseRuleExpression(text: string): RuleExpression {
  const tokens = tokensOf(text);
  let at = 0;
  const fail = (wanted: string): never => {
    throw new RangeError(`"${text}": ${wanted} is missing before "${tokens.slice(at).join("") || "the end"}"`);
  };
  const take = (token: string) => (tokens[at] === token ? (at++, true) : false);

  function sum(): RuleExpression {
    let left = product();
    for (let op = tokens[at]; op === "+" || op === "-"; op = tokens[at]) {
      at++;
      left = { kind: "binary", op, left, right: product() };
    }
    return left;
  }
  function product(): RuleExpression {
    let left = factor();
    for (let op = tokens[at]; op === "*" || op === "/"; op = tokens[at]) {
      at++;
      left = { kind: "binary", op, left, right: factor() };
    }
    return left;
  }
  function factor(): RuleExpression {
    if (take("-")) return { kind: "binary", op: "-", left: { kind: "number", value: 0 }, right: factor() };
    if (take("(")) {
      const inner = sum();
      return take(")") ? inner : fail('")"');
    }
    const token = tokens[at];
    if (token === undefined || /^[-+*/(),]$/.test(token)) return fail("a number or a name");
    at++;
    if (/^\d/.test(token)) return { kind: "number", value: Number(token) };
    return take("(") ? { kind: "call", name: token, args: args() } : { kind: "name", name: token };
  }
  function args(): RuleExpression[] {
    if (take(")")) return [];
    const list = [sum()];
    while (take(",")) list.push(sum());
    return take(")") ? list : fail('")"');
  }

  const whole = sum();
  return at === tokens.length ? whole : fail("an operator");
}

function tokensOf(text: string): string[] {
  const tokens: string[] = [];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.trimEnd().length) {
    const from = TOKEN.lastIndex;
    const found = TOKEN.exec(text);
    if (!found) throw new RangeError(`"${text}": cannot read "${text.slice(from).trim()}"`);
    tokens.push(found[1] ?? found[2] ?? found[3] ?? "");
  }
  return tokens;
}

/** All parts of an expression, itself included. */
export function partsOf(expression: RuleExpression): readonly RuleExpression[] {
  if (expression.kind === "call") return [expression, ...expression.args.flatMap(partsOf)];
  if (expression.kind === "binary") return [expression, ...partsOf(expression.left), ...partsOf(expression.right)];
  return [expression];
}
