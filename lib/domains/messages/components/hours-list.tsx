import { Entry } from "@/lib/ui/entry";
import { hourWords, type ContactHours } from "../hours/rules";
import { HoursForm } from "./hours-form";

interface LocationHours extends ContactHours {
  readonly locationId: string;
  readonly name: string;
  readonly timeZone: string;
}

const hours = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, index) => ({ value: String(from + index), label: hourWords(from + index) }));

/** The hours in which messages go out, location by location. */
export function HoursList({ locations }: { locations: readonly LocationHours[] }) {
  return locations.map((one) => (
    <Entry key={one.locationId} side={one.name} note={one.timeZone.replaceAll("_", " ")} isHeading isStrong>
      <HoursForm locationId={one.locationId} name={one.name} opensHour={one.opensHour} closesHour={one.closesHour} opens={hours(0, 23)} closes={hours(1, 24)} />
    </Entry>
  ));
}
