const PART = "[a-z0-9][a-z0-9.-]*";
const KEY = new RegExp(`^${PART}(/${PART})+$`);

/** A folder of keys. @throws RangeError for one that is not ours */
export function checkedFolder(folder: string): string {
  checkedKey(`${folder}/x`);
  return folder;
}

/** @throws RangeError for a key that is not ours: no way out of the store can be written in one */
export function checkedKey(key: string): string {
  if (!KEY.test(key) || key.includes("..")) throw new RangeError("not a blob key");
  return key;
}
