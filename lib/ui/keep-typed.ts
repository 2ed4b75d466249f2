import { startTransition, type FormEvent } from "react";

/**
 * Sends a form without React's emptying of it afterwards, so that what is typed while the answer is on its way stays. Without
 * script the form's own `action` does the same, with a new page.
 */
export function keepTyped(send: (form: FormData) => void): (event: FormEvent<HTMLFormElement>) => void {
  return (event) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    startTransition(() => send(form));
  };
}
