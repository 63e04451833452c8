/** A JSON Schema, or a part of one. */
export type Node = { properties?: Record<string, Node>; items?: unknown; $ref?: unknown; [key: string]: unknown };

/** A schema in which every field but the required ones may be left empty: not known yet. */
export function emptiable(node: unknown, isRequired = true): unknown {
  if (Array.isArray(node)) return node.map((item) => emptiable(item, false));
  if (!node || typeof node !== 'object') return node;
  const { required = [], type, enum: choices, ...rest } = node as { required?: string[] } & Node;
  const inner = Object.entries(rest).map(([key, value]) => {
    if (key === 'properties' || key === 'definitions') {
      const fields = Object.entries(value as Node).map(([name, one]) => [
        name,
        emptiable(one, required.includes(name)),
      ]);
      return [key, Object.fromEntries(fields)];
    }
    return [key, key === 'items' || key === 'additionalProperties' ? emptiable(value, false) : value];
  });
  return {
    ...Object.fromEntries(inner),
    ...(required.length > 0 && { required }),
    ...(type !== undefined && { type: isRequired ? type : [type, 'null'].flat() }),
    ...(choices !== undefined && { enum: isRequired ? choices : [...(choices as unknown[]), null] }),
  };
}
