type Schema = Readonly<Record<string, unknown>>;

/** The keywords that this checker understands; a schema with another one is not checked but refused. */
const known = new Set(
  "$schema title description type const enum oneOf anyOf not required properties additionalProperties propertyNames items pattern minLength maxLength minItems maxItems minimum maximum exclusiveMinimum exclusiveMaximum".split(
    " ",
  ),
);

/** Whether a value is valid under a JSON Schema, by the keywords' definitions in draft 2020-12. Nothing of zod in it. */
export function isValid(schema: Schema | boolean, value: unknown): boolean {
  if (typeof schema === "boolean") return schema;
  for (const keyword of Object.keys(schema)) if (!known.has(keyword)) throw new Error(`keyword ${keyword}`);
  const list = (keyword: string) => (schema[keyword] as readonly Schema[] | undefined) ?? null;
  const bound = (keyword: string) => schema[keyword] as number | undefined;
  const types = schema.type === undefined ? null : [schema.type].flat();
  if (types?.some((type) => isOfType(String(type), value)) === false) return false;
  if ("const" in schema && schema.const !== value) return false;
  if (schema.enum !== undefined && !(schema.enum as readonly unknown[]).includes(value)) return false;
  if (list("anyOf")?.some((one) => isValid(one, value)) === false) return false;
  if (list("oneOf") !== null && list("oneOf")!.filter((one) => isValid(one, value)).length !== 1) return false;
  if (schema.not !== undefined && isValid(schema.not as Schema, value)) return false;
  if (typeof value === "number") {
    if (value < (bound("minimum") ?? value) || value > (bound("maximum") ?? value)) return false;
    if (value <= (bound("exclusiveMinimum") ?? -Infinity) || value >= (bound("exclusiveMaximum") ?? Infinity))
      return false;
  }
  if (typeof value === "string") {
    const length = [...value].length;
    if (length < (bound("minLength") ?? 0) || length > (bound("maxLength") ?? Infinity)) return false;
    if (schema.pattern !== undefined && !new RegExp(String(schema.pattern), "u").test(value)) return false;
  }
  if (Array.isArray(value)) {
    if (value.length < (bound("minItems") ?? 0) || value.length > (bound("maxItems") ?? Infinity)) return false;
    return schema.items === undefined || value.every((item) => isValid(schema.items as Schema, item));
  }
  return (
    typeof value !== "object" || value === null || areFieldsValid(schema, value as Readonly<Record<string, unknown>>)
  );
}

function areFieldsValid(schema: Schema, value: Readonly<Record<string, unknown>>): boolean {
  const properties = (schema.properties ?? {}) as Readonly<Record<string, Schema>>;
  const required = (schema.required ?? []) as readonly string[];
  if (!required.every((name) => Object.hasOwn(value, name))) return false;
  return Object.entries(value).every(([name, field]) => {
    if (schema.propertyNames !== undefined && !isValid(schema.propertyNames as Schema, name)) return false;
    if (Object.hasOwn(properties, name)) return isValid(properties[name]!, field);
    return isValid((schema.additionalProperties ?? true) as Schema | boolean, field);
  });
}

function isOfType(type: string, value: unknown): boolean {
  if (type === "integer") return Number.isInteger(value);
  if (type === "null") return value === null;
  if (type === "array") return Array.isArray(value);
  if (type === "object") return typeof value === "object" && value !== null && !Array.isArray(value);
  return typeof value === type;
}
