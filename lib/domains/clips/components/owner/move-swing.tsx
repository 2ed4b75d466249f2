"use client";

import Link from "next/link";
import { useRouter } from "next/navigation";
import { useState, type FormEvent } from "react";
import type { Id } from "@/lib/core/ids";
import { Button } from "@/lib/ui/button";
import { Select } from "@/lib/ui/select";
import { moveSwing } from "../../owner/actions";
import type { MovedSwing } from "../../owner/schema";
import type { BattingSide } from "../../view";
import { ownerWords as words } from "./owner-words";

interface MoveSwingProps {
  readonly swingId: Id;
  readonly playerId: Id;
  readonly playerName: string;
  /** To whom it may be given. */
  readonly players: readonly { readonly id: Id; readonly name: string; readonly mayBeFilmed: boolean }[];
}

/** Gives a swing to the player whose it is, with Undo while the page is open. */
export function MoveSwing({ swingId, playerId, playerName, players }: MoveSwingProps) {
  const router = useRouter();
  const [moved, setMoved] = useState<MovedSwing | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const others = players.filter(({ id }) => id !== playerId);
  const send = async (input: { readonly swingId: Id; readonly toPlayerId: Id; readonly toSide?: BattingSide }) => {
    setIsBusy(true);
    const state = await moveSwing(input).catch(() => null);
    setIsBusy(false);
    setTrouble(state?.status === "refused" ? state.message : state ? null : words.trouble);
    if (state?.status !== "done") return;
    setMoved(moved ? null : (state.data as MovedSwing));
    router.refresh();
  };
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const toPlayerId = String(new FormData(event.currentTarget).get("toPlayerId") ?? "");
    if (!toPlayerId) return setTrouble(words.choose);
    void send({ swingId, toPlayerId });
  };
  return (
    <>
      <p role="status">{moved ? words.moved(playerName) : words.isOf(playerName)}</p>
      {moved ? (
        <>
          <p>{words.stays}</p>
          <div className="bar-line">
            <Button disabled={isBusy} onClick={() => void send({ swingId, toPlayerId: moved.fromPlayerId, toSide: moved.fromSide })}>{words.back}</Button>
            <Link href={`/swings/${swingId}`}>{words.open}</Link>
          </div>
        </>
      ) : others.length === 0 ? (
        <p className="quiet">{words.nobodyElse}</p>
      ) : (
        <form className="form" onSubmit={submit} noValidate>
          <Select
            name="toPlayerId" label={words.moveTo} hint={words.moveHint} empty
            options={others.map(({ id, name, mayBeFilmed }) => ({ value: id, label: mayBeFilmed ? name : `${name}, no consent to film`, isDisabled: !mayBeFilmed }))}
          />
          <Button type="submit" disabled={isBusy}>{words.move}</Button>
        </form>
      )}
      <div role="alert">{trouble ? <p className="trouble">{trouble}</p> : null}</div>
    </>
  );
}
