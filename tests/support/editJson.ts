/** Edits JSON by the paths that refusals name, as `catalog.sockets[0].length`: tests change one field of a good plan. */
type Container = Record<string, unknown> | unknown[];

export type Edit = (json: unknown) => void;

export function put(path: string, value: unknown): Edit {
  return (json) => {
    const { holder, key } = locate(json, path);
    Reflect.set(holder, key, value);
  };
}

export function remove(path: string): Edit {
  return (json) => {
    const { holder, key } = locate(json, path);
    Reflect.deleteProperty(holder, key);
  };
}

/** Leaves the first `count` entries of a list. */
export function keep(path: string, count: number): Edit {
  return (json) => listAt(json, path).splice(count);
}

export function append(path: string, ...entries: unknown[]): Edit {
  return (json) => listAt(json, path).push(...entries);
}

export function all(...edits: Edit[]): Edit {
  return (json) => {
    for (const edit of edits) edit(json);
  };
}

export function listAt(json: unknown, path: string): unknown[] {
  const { holder, key } = locate(json, path);
  const found: unknown = Reflect.get(holder, key);
  if (Array.isArray(found)) return found;
  throw new Error(`${path} is no list`);
}

function locate(json: unknown, path: string): { holder: Container; key: string } {
  const keys = path.split(/[.[\]]+/).filter((key) => key !== '');
  const key = keys.pop();
  let holder: unknown = json;
  for (const step of keys) holder = isContainer(holder) ? Reflect.get(holder, step) : undefined;
  if (key === undefined || !isContainer(holder)) throw new Error(`there is no ${path}`);
  return { holder, key };
}

function isContainer(value: unknown): value is Container {
  return typeof value === 'object' && value !== null;
}
