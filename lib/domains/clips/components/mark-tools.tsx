"use client";
import type { MarkView } from "../view";
import type { MarkTool } from "./gesture";
import { nameOfMark } from "./mark-names";
import { WordsForm } from "./words-form";

export interface MarkToolsProps {
  readonly marks: readonly MarkView[];
  readonly tool: MarkTool | null;
  readonly isWriting: boolean;
  readonly editedMark: string | null;
  readonly canMark: boolean;
  readonly onTool: (tool: MarkTool | null) => void;
  readonly onWrite: (text: string) => void;
  readonly onEdit: (id: string | null) => void;
  readonly onRewrite: (id: string, text: string) => void;
  readonly onRemove: (id: string) => void;
}

const toolNames: readonly (readonly [MarkTool, string])[] = [["line", "Line"], ["angle", "Angle"], ["ring", "Ring"], ["pen", "Pen"], ["words", "Words"]];
const hints: Readonly<Record<MarkTool, string>> = {
  line: "Drag from end to end on the picture. By key: arrows move the cross, Enter sets each end.",
  angle: "Drag from one end to the corner, then press the other end. By key: arrows move the cross, Enter sets end, corner and end.",
  pen: "Draw with finger, pen or mouse. By key: Enter puts the pen down, arrows draw, Enter lifts it.",
  ring: "Drag from corner to corner round the thing. By key: arrows move the cross, Enter sets each corner.",
  words: "Press the picture where the words shall stand, then write them. By key: arrows move the cross, Enter sets the place.",
};

/** Tools in words, and the marks of the frame with a way to change and to remove each. */
export function MarkTools(props: MarkToolsProps) {
  const { marks, tool, isWriting, editedMark, canMark } = props;
  return (
    <section aria-label="Marks on this frame">
      <h2>Marks on this frame</h2>
      {marks.length === 0 && !canMark ? <p className="note">None yet.</p> : null}
      <ul className="rows">
        {marks.map((it, i) => {
          const name = nameOfMark(it.shape, i);
          const isEdited = it.id === editedMark;
          return (
            <li key={it.id} data-listed-mark={it.shape.kind}>
              <span>{name}</span>
              {canMark ? (
                <span>
                  <button type="button" className="btn plain" aria-pressed={isEdited} aria-label={`Edit ${name}`} onClick={() => props.onEdit(isEdited ? null : it.id)}>{isEdited ? "Done" : "Edit"}</button>
                  <button type="button" className="btn plain" aria-label={`Delete ${name}`} onClick={() => props.onRemove(it.id)}>Delete</button>
                </span>
              ) : null}
            </li>
          );
        })}
      </ul>
      {marks.map((it) =>
        it.id !== editedMark ? null : it.shape.kind === "words" ? (
          <WordsForm key={it.id} start={it.shape.text} onDone={(text) => props.onRewrite(it.id, text)} onCancel={() => props.onEdit(null)} />
        ) : (
          <p key={it.id} className="note">Drag its squares on the picture, or move it by the arrow keys there.</p>
        ),
      )}
      {isWriting ? <WordsForm start="" onDone={props.onWrite} onCancel={() => props.onTool(null)} /> : null}
      {canMark ? (
        <div className="tools" role="group" aria-label="Draw on this frame">
          {toolNames.map(([it, name]) => (
            <button key={it} type="button" className="btn" aria-pressed={tool === it} onClick={() => props.onTool(tool === it ? null : it)}>{name}</button>
          ))}
        </div>
      ) : null}
      {tool && !isWriting ? <p className="note" role="status">{hints[tool]}</p> : null}
    </section>
  );
}
