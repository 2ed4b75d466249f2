/** The names in a zip by its central directory (PKWARE APPNOTE 4.3.12 and 4.3.16), which is what any program that opens one goes by. */
export function namesInZip(bytes: Buffer): string[] {
  const end = bytes.lastIndexOf(Buffer.from([0x50, 0x4b, 0x05, 0x06]));
  if (end < 0) throw new Error("this is no zip");
  const names: string[] = [];
  for (let i = 0, at = bytes.readUInt32LE(end + 16); i < bytes.readUInt16LE(end + 10); i++) {
    if (bytes.readUInt32LE(at) !== 0x02014b50) throw new Error("the directory of this zip is broken");
    const [name, extra, comment] = [bytes.readUInt16LE(at + 28), bytes.readUInt16LE(at + 30), bytes.readUInt16LE(at + 32)];
    names.push(bytes.toString("utf8", at + 46, at + 46 + name));
    at += 46 + name + extra + comment;
  }
  return names;
}
