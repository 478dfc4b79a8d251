import * as v from 'valibot';
import { UserError } from '../base/problem.ts';
import { PACKAGE_SCHEMA } from './descriptor.ts';
import * as say from './pool-messages.ts';

const Scalar = v.union([v.string(), v.number()]);
const Names = v.pipe(v.array(v.string()), v.minLength(1));

const FieldSchema = v.object({
  name: v.string(),
  type: v.picklist(['string', 'integer', 'number', 'year']),
  constraints: v.optional(
    v.object({
      required: v.optional(v.boolean()),
      minimum: v.optional(v.number()),
      maximum: v.optional(v.number()),
      enum: v.optional(v.array(Scalar)),
      pattern: v.optional(v.pipe(v.string(), v.maxLength(200))),
    }),
    {},
  ),
});

const TableResourceSchema = v.object({
  name: v.string(),
  type: v.literal('table'),
  path: v.string(),
  hash: v.pipe(v.string(), v.regex(/^sha256:[0-9a-f]{64}$/)),
  schema: v.object({
    fields: v.pipe(v.array(FieldSchema), v.minLength(1)),
    primaryKey: Names,
    foreignKeys: v.optional(
      v.array(
        v.object({
          fields: Names,
          reference: v.object({ resource: v.string(), fields: Names }),
        }),
      ),
    ),
  }),
});
/** A table as a descriptor lists it. */
export type TableResource = v.InferOutput<typeof TableResourceSchema>;

const FileResourceSchema = v.object({
  name: v.string(),
  type: v.optional(v.undefined()),
  path: v.string(),
  hash: v.pipe(v.string(), v.regex(/^sha256:[0-9a-f]{64}$/)),
});

const DescriptorSchema = v.object({
  licenses: v.optional(
    v.array(v.object({ name: v.optional(v.string()), path: v.optional(v.string()) })),
  ),
  linehours: v.object({
    schema: v.literal(PACKAGE_SCHEMA),
    tier: v.picklist(['cells', 'trips']),
    gear: v.string(),
    effort: v.picklist(['line-hours', 'hours', 'trips']),
    assumed_effort: v.boolean(),
    consent: v.object({ given: v.boolean() }),
    noise: v.nullable(v.object({ epsilon: v.number() })),
    vessels: v.array(v.pipe(v.string(), v.regex(/^[0-9a-f]{24}$/))),
    trips: v.pipe(v.number(), v.integer(), v.minValue(1)),
  }),
  resources: v.pipe(v.array(v.union([TableResourceSchema, FileResourceSchema])), v.minLength(1)),
});
/** A descriptor that has been checked. */
export type PoolDescriptor = v.InferOutput<typeof DescriptorSchema>;

/**
 * Reads a descriptor of ours.
 * @param path for messages.
 * @throws UserError (exit 3) for another kind of package, another version, or a damaged one.
 */
export function poolDescriptor(text: string, path: string): PoolDescriptor {
  const plain = jsonOf(text, path);
  const marked = v.safeParse(v.object({ linehours: v.object({ schema: v.string() }) }), plain);
  if (!marked.success) throw new UserError(say.notOurs(path), 3);
  const { schema } = marked.output.linehours;
  if (schema !== PACKAGE_SCHEMA) {
    const isOurs = schema.startsWith('linehours/package@');
    throw new UserError(
      isOurs ? say.otherVersion(path, schema, PACKAGE_SCHEMA) : say.notOurs(path),
      3,
    );
  }
  const checked = v.safeParse(DescriptorSchema, plain);
  if (checked.success) return checked.output;
  const [issue] = checked.issues;
  const place = (issue.path ?? []).map((step) => String(step.key)).join('.') || 'the file';
  throw new UserError(say.badDescriptor(path, place, issue.expected ?? issue.type), 3);
}

function jsonOf(text: string, path: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new UserError(say.noJson(path), 3);
  }
}
