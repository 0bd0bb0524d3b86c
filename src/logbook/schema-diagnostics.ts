import * as z from "zod";
import { type Diagnostic, type Place, refusal } from "../core/base/diagnostic.ts";
import type { DiagnosticCode } from "../core/base/diagnostic-words.ts";
import { mostDiagnostics } from "./diagnostics-up-to.ts";
import { jsonPlaces, pathFrom } from "./json-places.ts";
import { nearestWord } from "./nearest-word.ts";

type Path = readonly PropertyKey[];

/**
 * What a schema found wrong with a value, as diagnostics. `line` is the text the value was read from, if there is one:
 * then every diagnostic says in which column its field stands.
 */
export function diagnosticsFromIssues(
  issues: readonly z.core.$ZodIssue[],
  value: unknown,
  schema: z.ZodType,
  where: Place,
  line?: string,
): readonly Diagnostic[] {
  // One event can be wrong in any number of ways; nobody reads more than the first of them.
  const found = issues
    .slice(0, mostDiagnostics)
    .flatMap((issue) => diagnosticsFromIssue(issue, value, schema))
    .slice(0, mostDiagnostics);
  // A mistyped name is the cause of whatever else its object seems to lack.
  const causes = found.some(({ code }) => code === "event-field-unknown")
    ? found.filter(({ code }) => !code.startsWith("reading-"))
    : found;
  const once = causes.filter(
    (one, index) => causes.findIndex((other) => other.code === one.code && other.field === one.field) === index,
  );
  const places = line === undefined ? [] : jsonPlaces(line).fields;
  return once.map(({ code, field, data }) => {
    const place = places.find(({ path }) => path === field);
    const offset = code === "event-field-unknown" ? place?.key : place?.value;
    return refusal(
      code,
      { ...where, ...(offset === undefined ? {} : { column: offset + 1 }), ...(field === "" ? {} : { field }) },
      field === "" ? data : { field, ...data },
    );
  });
}

interface Found {
  readonly code: DiagnosticCode;
  readonly field: string;
  readonly data: Diagnostic["data"];
}

function diagnosticsFromIssue(issue: z.core.$ZodIssue, root: unknown, schema: z.ZodType): readonly Found[] {
  const field = pathFrom(issue.path);
  const value = valueAt(root, issue.path);
  const found = describeFound(value);
  const missing = (form: string): readonly Found[] => [{ code: "event-field-missing", field, data: { form } }];
  const unfit = (form: string): readonly Found[] => [{ code: "event-field-unfit", field, data: { found, form } }];
  const notListed = (values: readonly unknown[]): readonly Found[] => [
    {
      code: "event-field-not-listed",
      field,
      data: { found, listed: values.map(describeFound).join(", "), meant: meantAmong(value, values) },
    },
  ];
  switch (issue.code) {
    case "invalid_type": {
      const form = formOfType[issue.expected] ?? issue.expected;
      return value === undefined ? missing(form) : unfit(form);
    }
    case "invalid_value":
      return value === undefined ? missing("text") : notListed(issue.values);
    case "invalid_format":
      return unfit(issue.message);
    case "invalid_key":
      return [{ code: "event-field-unfit", field, data: { found: describeFound(issue.path.at(-1)), form: "word" } }];
    case "too_small":
    case "too_big":
      return [
        { code: "event-field-beyond", field, data: { found, bound: boundOf(schemaAt(schema, issue.path), issue) } },
      ];
    case "unrecognized_keys": {
      const known = Object.keys(shapeOf(schemaAt(schema, issue.path)) ?? {});
      return issue.keys.slice(0, mostDiagnostics).map((key) => ({
        code: "event-field-unknown",
        field: pathFrom([...issue.path, key]),
        data: { listed: known.join(", "), meant: nearestWord(key, known) ?? "" },
      }));
    }
    case "invalid_union": {
      if (value === undefined) return missing("choice-value");
      const literals = issue.errors.flat().flatMap((inner) => (inner.code === "invalid_value" ? inner.values : []));
      return literals.length > 0 ? notListed(literals) : unfit("choice-value");
    }
    case "custom":
      return isCustomCode(issue.message) ? [{ code: issue.message, field, data: {} }] : unfit(issue.message);
    default:
      return unfit("text");
  }
}

const formOfType: Readonly<Record<string, string>> = {
  string: "text",
  number: "number",
  int: "whole-number",
  boolean: "true-or-false",
  object: "object",
  record: "object",
  array: "list",
};

const customCodes = [
  "factor-zero",
  "reading-form",
  "reading-part-form",
  "reading-half",
  "reading-unit",
  "reading-without-unit",
  "reading-leaves-crossed",
] as const satisfies readonly DiagnosticCode[];

function isCustomCode(message: string): message is (typeof customCodes)[number] {
  return (customCodes as readonly string[]).includes(message);
}

/** A value as a message shows it: short, on one line, numbers with a true minus. */
export function describeFound(value: unknown): string {
  if (typeof value === "string") return `“${value.length > 60 ? `${value.slice(0, 59)}…` : value}”`;
  if (typeof value === "number") return String(value).replace("-", "−");
  if (value === null || value === undefined || typeof value === "boolean") return String(value ?? "null");
  return Array.isArray(value) ? "a list" : "an object";
}

function meantAmong(value: unknown, values: readonly unknown[]): string {
  if (typeof value !== "string") return "";
  return (
    nearestWord(
      value,
      values.filter((candidate) => typeof candidate === "string"),
    ) ?? ""
  );
}

function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const part of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}

function schemaAt(schema: z.ZodType, path: Path): z.ZodType | undefined {
  let current: z.ZodType | undefined = unwrapped(schema);
  for (const part of path) {
    if (current instanceof z.ZodObject) current = shapeOf(current)?.[String(part)];
    else if (current instanceof z.ZodRecord) current = current.valueType as z.ZodType;
    else if (current instanceof z.ZodArray) current = current.element as z.ZodType;
    else return undefined;
    if (current !== undefined) current = unwrapped(current);
  }
  return current;
}

function unwrapped(schema: z.ZodType): z.ZodType {
  let current = schema;
  while (current instanceof z.ZodOptional || current instanceof z.ZodNullable) current = current.unwrap() as z.ZodType;
  return current;
}

function shapeOf(schema: z.ZodType | undefined): Readonly<Record<string, z.ZodType>> | undefined {
  return schema instanceof z.ZodObject ? (schema.shape as Record<string, z.ZodType>) : undefined;
}

function boundOf(schema: z.ZodType | undefined, issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const things = issue.origin === "string" ? " characters" : issue.origin === "array" ? " entries" : "";
  const limits = schema as { minValue?: number | null; maxValue?: number | null } | undefined;
  const [least, most] = [limits?.minValue, limits?.maxValue];
  if (isBound(least) && isBound(most)) return `${shown(least)} to ${shown(most)}`;
  if (issue.code === "too_big") return `at most ${shown(Number(issue.maximum))}${things}`;
  return `${issue.inclusive === false ? "more than" : "at least"} ${shown(Number(issue.minimum))}${things}`;
}

function isBound(bound: number | null | undefined): bound is number {
  return bound !== null && bound !== undefined && Math.abs(bound) < Number.MAX_SAFE_INTEGER;
}

function shown(bound: number): string {
  return String(bound).replace("-", "−");
}
