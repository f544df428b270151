/**
 * A function that works out its answer once for each object, for as long as anything else holds that object. For what
 * depends on the object alone, and on objects that never change.
 */
export function remembered<K extends object, V>(answer: (key: K) => V): (key: K) => V {
  const known = new WeakMap<K, { readonly value: V }>();
  return (key) => {
    let found = known.get(key);
    if (found === undefined) known.set(key, (found = { value: answer(key) }));
    return found.value;
  };
}
