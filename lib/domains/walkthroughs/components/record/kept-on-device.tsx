"use client";
import { useCallback, useEffect, useState } from "react";
import { Button } from "@/lib/ui/button";
import { sayMinutes } from "../../rules";
import { dropFromDevice, listKeptTakes, type KeptTake } from "./kept-takes";

interface KeptOnDeviceProps {
  readonly userId: string;
  readonly playerId: string;
  /** While one is recorded or sent nothing else is offered. */
  readonly isBusy: boolean;
  readonly onSend: (take: KeptTake) => Promise<void>;
}

/** What was said here before and never sent: the page was closed, or there was no connection. */
export function KeptOnDevice({ userId, playerId, isBusy, onSend }: KeptOnDeviceProps) {
  const [takes, setTakes] = useState<readonly KeptTake[]>([]);
  const look = useCallback(() => {
    listKeptTakes(userId, playerId).then(setTakes, () => setTakes([]));
  }, [userId, playerId]);
  useEffect(() => {
    if (!isBusy) look();
  }, [isBusy, look]);
  const offered = takes.filter(({ list }) => list.durationMs > 0);
  if (isBusy || offered.length === 0) return null;
  return (
    <section aria-label="Kept on this device">
      <h2>Kept on this device</h2>
      <ul className="rows">
        {offered.map((take) => (
          <li key={take.takeId}>
            <p>A talk of {sayMinutes(take.list.durationMs)} over {take.list.clips.map(({ caption }) => `‘${caption}’`).join(" and ")} was not sent.</p>
            <div className="bar-line">
              <Button kind="main" onClick={() => void onSend(take).then(look)}>Keep it now</Button>
              <Button kind="plain" onClick={() => void dropFromDevice(take.takeId).then(look)}>Throw it away</Button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
