/** Something that is not right in a record of a set of files: where it stands, and one sentence about it. */
export interface RecordProblem {
  /** The file or part, such as "drills". */
  readonly file: string;
  /** The record's own id; empty when the file as a whole is meant. */
  readonly id: string;
  /** The field, written as a path ("dose.minutes"); empty when the record as a whole is meant. */
  readonly field: string;
  readonly words: string;
}

/** The problem in one line for people: file, record, field and what is not right. */
export function problemLine({ file, id, field, words }: RecordProblem): string {
  return `${[file, id, field].filter((part) => part !== "").join(" › ")}: ${words}`;
}
