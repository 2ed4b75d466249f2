import pg from "pg";

/** A first half of a lock's number that nothing else here uses. */
const LIVING = 771_301;
/** A worker that looks young after a death gets its try back; one over which worker after worker falls does not. */
const TRY_BACK_WITHIN = "1 hour";

/**
 * Which workers live, as the database sees it: each holds a lock by its name for as long as its connection stands. The queue itself would give
 * the jobs of a dead worker to nobody for four hours.
 */
export class Living {
  private constructor(private readonly client: pg.Client) {}

  /** @param onLost told when the connection is lost: others then take this worker for dead, so it must end */
  static async begin(connectionString: string, onLost: () => void): Promise<Living> {
    const client = new pg.Client({ connectionString, keepAlive: true });
    client.on("error", onLost);
    await client.connect();
    // A machine that vanishes is noticed within a minute and a half.
    await client.query("SELECT set_config('tcp_keepalives_idle', '30', false), set_config('tcp_keepalives_interval', '15', false), set_config('tcp_keepalives_count', '4', false)");
    return new Living(client);
  }

  /** Says that a worker lives. */
  async add(workerId: string): Promise<void> {
    await this.client.query("SELECT pg_advisory_lock($1, hashtext($2))", [LIVING, workerId]);
  }

  /**
   * Frees the jobs of workers that died, for anybody to take at once. A killed try does not count, unless the job has been about for an hour.
   * @returns how many jobs were freed
   */
  async freeJobsOfTheDead(): Promise<number> {
    const { rows } = await this.client.query<{ locked_by: string }>("SELECT DISTINCT locked_by FROM graphile_worker.jobs WHERE locked_by IS NOT NULL");
    let count = 0;
    for (const { locked_by: workerId } of rows) {
      const { rows: tried } = await this.client.query<{ is_dead: boolean }>(
        "SELECT NOT EXISTS (SELECT 1 FROM pg_locks WHERE locktype = 'advisory' AND classid = $1::oid AND objid = (hashtext($2)::bigint & 4294967295)::oid AND objsubid = 2 AND granted AND database = (SELECT oid FROM pg_database WHERE datname = current_database())) AS is_dead",
        [LIVING, workerId],
      );
      if (!tried[0]?.is_dead) continue;
      const freed = await this.client.query(
        `UPDATE graphile_worker._private_jobs SET attempts = CASE WHEN created_at > now() - $2::interval THEN greatest(attempts - 1, 0) ELSE attempts END WHERE locked_by = $1`,
        [workerId, TRY_BACK_WITHIN],
      );
      await this.client.query("SELECT graphile_worker.force_unlock_workers(ARRAY[$1]::text[])", [workerId]);
      count += freed.rowCount ?? 0;
    }
    return count;
  }

  async end(): Promise<void> {
    await this.client.end();
  }
}
