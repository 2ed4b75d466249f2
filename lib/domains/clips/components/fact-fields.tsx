import { CheckRow } from "@/lib/ui/check-row";
import { Choice } from "@/lib/ui/choice";
import { Select } from "@/lib/ui/select";
import { DateInput, TextInput } from "@/lib/ui/text-input";
import type { UploadFacts } from "../schema";
import type { BattingSide, CameraView } from "../view";
import { addWords as words, factOptions } from "./add-words";

type Errors = Readonly<Record<string, string>>;
export type CameraAnswers = Pick<UploadFacts, "view" | "filmedRate" | "isMirrored" | "hasCameraMoved" | "hasCameraZoomed" | "isStabilised" | "cameraOffDeg">;

const sideWords: Readonly<Record<BattingSide, string>> = { right: "The right", left: "The left" };

interface SwingFactFieldsProps {
  readonly sides: readonly BattingSide[];
  readonly side: BattingSide | null;
  readonly begin: UploadFacts | null;
  readonly today: string;
  readonly errors: Errors;
}

/** What no file says of a swing. `begin` holds the last clip's answers. */
export function SwingFactFields({ sides, side: asked, begin, today, errors }: SwingFactFieldsProps) {
  const field = (name: "task" | "effort" | "pitchHeight" | "pitchSide" | "pitchSpeed" | "batClass" | "swingKind") => ({
    name, label: words.labels[name], options: factOptions[name], defaultValue: begin?.[name] ?? factOptions[name][0].value, error: errors[name],
  });
  const side = [asked, begin?.side].find((it) => it && sides.includes(it)) ?? sides[0];
  return (
    <>
      {sides.length > 1 ? (
        <Choice name="side" label={words.labels.side} options={sides.map((value) => ({ value, label: sideWords[value] }))} defaultValue={side} error={errors.side} />
      ) : (
        <input type="hidden" name="side" value={side} />
      )}
      <Select {...field("task")} />
      <Select {...field("pitchHeight")} />
      <Select {...field("pitchSide")} />
      <Select {...field("effort")} />
      <details className="fold">
        <summary>{words.more}</summary>
        <div className="form">
          <Select {...field("swingKind")} />
          <Select {...field("pitchSpeed")} />
          <Select {...field("batClass")} />
          <DateInput name="filmedOn" label={words.labels.filmedOn} defaultValue={today} max={today} error={errors.filmedOn} />
        </div>
      </details>
    </>
  );
}

/** From where and how it was filmed: what no file says, or says only in part. */
export function CameraFactFields({ begin, errors, onView }: { readonly begin: CameraAnswers | null; readonly errors: Errors; readonly onView?: (view: CameraView) => void }) {
  const tick = (name: "isMirrored" | "hasCameraMoved" | "hasCameraZoomed" | "isStabilised", hint?: string) => (
    <CheckRow name={name} label={words.labels[name]} hint={hint} defaultChecked={begin?.[name] ?? false} />
  );
  return (
    <>
      <Select name="view" label={words.labels.view} options={factOptions.view} defaultValue={begin?.view ?? "side"} error={errors.view} onChange={(event) => onView?.(event.target.value as CameraView)} />
      <Select name="filmedRate" label={words.labels.filmedRate} hint={words.hints.filmedRate} options={factOptions.filmedRate} defaultValue={begin?.filmedRate ?? "as-file"} error={errors.filmedRate} />
      <details className="fold">
        <summary>{words.camera}</summary>
        <div className="form">
          {tick("isMirrored", words.hints.isMirrored)}
          {tick("hasCameraMoved")}
          {tick("hasCameraZoomed")}
          {tick("isStabilised")}
          <TextInput
            name="cameraOffDeg" label={words.labels.cameraOffDeg} hint={words.hints.cameraOffDeg} mayBeEmpty isShort inputMode="numeric"
            defaultValue={begin?.cameraOffDeg ?? ""} error={errors.cameraOffDeg}
          />
        </div>
      </details>
    </>
  );
}
