/**
 * One text for one value, after RFC 8785: names sorted by their UTF-16 units, nothing between, numbers and texts as
 * JSON.stringify writes them. A field that is undefined is absent.
 */
export function canonicalJson(value: unknown): string {
  const ordered = inOrder(value);
  return ordered === odd ? written(value) : (JSON.stringify(ordered) ?? 'null');
}

/** Stands for a value in which an object could not be made with its names in their order. */
const odd = Symbol('odd');

/** An object keeps these first, whatever their order, or takes them for something else than a name. */
const oddName = /^(?:0|[1-9]\d*|__proto__|toJSON)$/;

/**
 * The value with the names of every object within in their order, which is written in one go; itself where they are
 * already.
 */
function inOrder(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const made = value.map(inOrder);
    if (made.includes(odd)) return odd;
    return made.every((one, at) => one === value[at]) ? value : made;
  }
  const held = value as Record<string, unknown>;
  const names = Object.keys(held);
  const { sorted, isOdd } = orderOf(names);
  if (isOdd || sorted.length !== names.length) return odd;
  let isSame = sorted.every((name, at) => name === names[at]);
  const made: Record<string, unknown> = {};
  for (const name of sorted) {
    const own = inOrder(held[name]);
    if (own === odd) return odd;
    isSame &&= own === held[name];
    made[name] = own;
  }
  return isSame ? held : made;
}

interface Order {
  sorted: readonly string[];
  isOdd: boolean;
}

/** Records of a kind have the same names: they are sorted once. */
const orders = new Map<string, Order>();
const ordersMost = 2_000;

function orderOf(names: readonly string[]): Order {
  const all = names.join('\n');
  const known = orders.get(all);
  if (known !== undefined) return known;
  const made = { sorted: names.toSorted(), isOdd: names.some((name) => oddName.test(name) || name.includes('\n')) };
  if (orders.size < ordersMost) orders.set(all, made);
  return made;
}

/** Any value, piece by piece. */
function written(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  if (Array.isArray(value)) return `[${value.map(written).join(',')}]`;
  const held = value as Record<string, unknown>;
  const fields = Object.keys(held)
    .toSorted()
    .filter((name) => held[name] !== undefined)
    .map((name) => `${JSON.stringify(name)}:${written(held[name])}`);
  return `{${fields.join(',')}}`;
}
