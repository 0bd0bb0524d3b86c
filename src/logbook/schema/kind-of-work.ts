import * as z from "zod";
import type { DemandKindId } from "../../core/work/demand.ts";
import type { KindOfWork } from "../../core/work/kind-of-work.ts";
import { catalogueIdField, nameField, numberField, wordField } from "./fields.ts";

const sentence = z
  .string()
  .max(300)
  .regex(/^\S.*\S$/);

/** In the demand's unit; wider than this is no demand on a machine that cuts. */
const limit = numberField(0.001, 20);

/** One file of `catalog/kinds-of-work`. That sizes and units are ones of the demand's kind, a test looks at. */
export const kindOfWorkSchema = z.strictObject({
  id: catalogueIdField,
  name: nameField,
  about: sentence,
  demands: z
    .array(
      z.strictObject({
        kind: catalogueIdField as unknown as z.ZodType<DemandKindId, string>,
        sizes: z.record(wordField, z.union([numberField(0.1, 5000), wordField])).optional(),
        axes: z
          .array(z.enum(["x", "y", "z"]))
          .min(1)
          .max(3)
          .optional(),
        limit: z.strictObject({ unit: z.enum(["mm", "mm/m"]), belt: limit, screw: limit }),
        why: sentence,
        decidedBy: nameField,
      }),
    )
    .min(1),
  source: nameField,
}) satisfies z.ZodType<KindOfWork>;
