/** A form as a plain object: a name that ends in "[]" is always a list, any other its last value. Next's own fields are left out. */
export function formObject(form: FormData): Record<string, unknown> {
  const result: Record<string, unknown> = {};
  for (const key of new Set(form.keys())) {
    if (key.startsWith("$ACTION")) continue;
    if (key.endsWith("[]")) result[key.slice(0, -2)] = form.getAll(key);
    else result[key] = form.getAll(key).at(-1);
  }
  return result;
}

/** What a person typed, to be shown again in a form that was refused. Secrets are not sent back. */
export function typedValues(form: FormData): Record<string, string> {
  const values: Record<string, string> = {};
  for (const [key, value] of form.entries()) {
    if (typeof value === "string" && !key.startsWith("$ACTION") && !/password/i.test(key)) values[key] = value;
  }
  return values;
}
