/**
 * Shares out a number of bytes among those who want some: nobody gets more than wanted, and what one leaves over goes to
 * the others alike (max-min fairness). The shares never add up to more than there is.
 * @param wants bytes each would use, 0 or more; Infinity for one that does not know yet
 */
export function shareOut(totalBytes: number, wants: readonly number[]): readonly number[] {
  const shares = wants.map(() => 0);
  const order = wants.map((want, i) => ({ want, i })).sort((a, b) => a.want - b.want);
  let left = totalBytes;
  order.forEach(({ want, i }, rank) => {
    const share = Math.max(0, Math.min(want, Math.floor(left / (order.length - rank))));
    shares[i] = share;
    left -= share;
  });
  return shares;
}

/** What one open clip may keep of the common budget. */
export interface ByteLease {
  /** Bytes that it may hold now; becomes less when another clip is opened. */
  readonly allowedBytes: number;
  readonly heldBytes: number;
  /** Says how many bytes would be of use, once that is known. */
  want(bytes: number): void;
  /** Takes bytes; false, and nothing taken, when they do not fit into what is allowed. */
  hold(bytes: number): boolean;
  giveBack(bytes: number): void;
  /** Everything is given back, and the others may use it. */
  close(): void;
}

/**
 * One budget for the decoded pictures of all clips that are open on a page. It is never exceeded: a clip whose share
 * becomes smaller is told at once and gives back before anybody else can take.
 */
export class ByteBudget {
  private readonly open: Lease[] = [];

  constructor(readonly totalBytes: number) {}

  /** Bytes of all open clips together. */
  get heldBytes(): number {
    return this.open.reduce((sum, it) => sum + it.heldBytes, 0);
  }

  /** @param onChange called when the share has changed; what is held beyond it must be given back before it returns */
  lease(onChange: () => void): ByteLease {
    const lease = new Lease(this, onChange);
    this.open.push(lease);
    this.shareAnew(lease);
    return lease;
  }

  /** @internal */
  leave(lease: Lease): void {
    const at = this.open.indexOf(lease);
    if (at >= 0) this.open.splice(at, 1);
    this.shareAnew();
  }

  /** @internal Those whose share shrinks are told first; one that is only coming knows by itself. */
  shareAnew(coming: Lease | null = null): void {
    const shares = shareOut(this.totalBytes, this.open.map((it) => it.wantedBytes));
    const changed = this.open.map((lease, i) => ({ lease, before: lease.allowedBytes, now: shares[i] ?? 0 })).filter((it) => it.before !== it.now);
    for (const { lease, now } of changed) lease.allowedBytes = now;
    for (const { lease } of changed.sort((a, b) => a.now - a.before - (b.now - b.before))) if (lease !== coming) lease.onChange();
  }
}

class Lease implements ByteLease {
  allowedBytes = 0;
  heldBytes = 0;
  wantedBytes = Infinity;
  private isOpen = true;

  constructor(
    private readonly budget: ByteBudget,
    readonly onChange: () => void,
  ) {}

  want(bytes: number): void {
    if (!this.isOpen || bytes === this.wantedBytes) return;
    this.wantedBytes = bytes;
    this.budget.shareAnew();
  }

  hold(bytes: number): boolean {
    if (!this.isOpen || this.heldBytes + bytes > this.allowedBytes || this.budget.heldBytes + bytes > this.budget.totalBytes) return false;
    this.heldBytes += bytes;
    return true;
  }

  giveBack(bytes: number): void {
    this.heldBytes = Math.max(0, this.heldBytes - bytes);
  }

  close(): void {
    if (!this.isOpen) return;
    this.isOpen = false;
    this.heldBytes = 0;
    this.budget.leave(this);
  }
}

/** All that the clips of a page hold in memory together. */
const viewerBytes = 300_000_000;
const mostClips = 4;

/** A film of at most so many bytes is kept in memory as it came, which saves a wait at every seek; a longer one is read from the browser's store. */
export const mostEncodedBytes = 24_000_000;

/** What is left for decoded pictures when four films lie in memory beside them. */
export const viewerBudget = new ByteBudget(viewerBytes - mostClips * mostEncodedBytes);
