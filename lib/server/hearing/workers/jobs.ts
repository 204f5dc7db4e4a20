import type PgBoss from "pg-boss";

/** The schema with everything of the queue: a backup may leave it out whole. */
export const SCHEMA = "leeway_hearing";
const QUEUE = "recordings";

/** Times a recording is tried by workers that end before they are through; our choice: a third is no accident. */
export const MOST_TRIES = 3;
/** Milliseconds between signs of life of a worker: our choice. */
export const SIGN = 1000;
/** Times pg-boss hands a job out at most: more than it is tried, as a worker may end before it has begun. */
const MOST_HANDED = 30;
/** Seconds after which what nobody asks for any more is removed: our choice, longer than any request lasts. */
const STALE = 900;

/** Any number that no other program takes as the key of a lock: "leeh" in ASCII. */
const LOCK = 0x6c656568;

/** What a server sees of a recording that it has given away. */
export interface Seen {
  readonly job: string;
  readonly offer: Buffer | null;
  readonly isHanded: boolean;
  readonly isDead: boolean;
  readonly tries: number;
  readonly result: Buffer | null;
}

/** The jobs of a queue. All that stands in the database is sealed but the number of a job and its times. */
export interface Jobs {
  begin(job: string, terms: Buffer): Promise<void>;
  addPart(job: string, part: number, sealed: Buffer): Promise<void>;
  /** Lets workers have it, once all its parts are there. */
  send(job: string, parts: number): Promise<void>;
  /** `silence`: milliseconds without a sign of life after which a worker is taken to be dead. */
  look(jobs: readonly string[], silence: number): Promise<readonly Seen[]>;
  hand(job: string, offer: Buffer, handed: Buffer): Promise<void>;
  /** Takes a job from a worker that is dead, for another. */
  takeBack(job: string): Promise<void>;
  /** Removes everything of it. */
  drop(job: string): Promise<void>;
  /** A job for a worker; `undefined` when there is none. */
  next(): Promise<string | undefined>;
  /** Offers to hear it: its terms; `undefined` when nobody waits for it any more. */
  claim(job: string, offer: Buffer): Promise<{ readonly terms: Buffer; readonly parts: number } | undefined>;
  /** The key, sealed for the offer; `undefined` as long as it is not there. */
  handed(job: string, offer: Buffer): Promise<Buffer | undefined>;
  part(job: string, part: number): Promise<Buffer | undefined>;
  /** A sign of life; false when the job is no longer this worker's. */
  sign(job: string, offer: Buffer): Promise<boolean>;
  /** Writes down what was heard, unless the job is no longer this worker's, and removes the sound. */
  finish(job: string, offer: Buffer, result: Buffer): Promise<void>;
  removeStale(): Promise<void>;
}

/** Neither the log of the server nor a replica or copy of its files has what is in an unlogged table; after a crash it is empty, and whoever sent a recording sends it again. */
export async function openJobs(boss: PgBoss): Promise<Jobs> {
  const ask = async <T>(text: string, values: readonly unknown[] = []): Promise<readonly T[]> =>
    (await boss.getDb().executeSql(text.replaceAll("$schema", SCHEMA), [...values])).rows as T[];
  // One message is one transaction: the lock goes with it.
  await boss.getDb().executeSql(
    `select pg_advisory_xact_lock(${LOCK});
    create unlogged table if not exists ${SCHEMA}.held (
      job uuid primary key, terms bytea not null, parts int, made timestamptz not null default now(),
      offer bytea, handed bytea, alive timestamptz, tries int not null default 0, result bytea
    );
    create unlogged table if not exists ${SCHEMA}.sound (job uuid, part int, sealed bytea not null, primary key (job, part));
    alter table ${SCHEMA}.sound alter column sealed set storage external`,
    [],
  );
  await boss.createQueue(QUEUE);
  const removeSound = (job: string) => ask("delete from $schema.sound where job = $1", [job]);
  return {
    begin: async (job, terms) =>
      void (await ask("insert into $schema.held (job, terms) values ($1, $2)", [job, terms])),
    addPart: async (job, part, sealed) =>
      void (await ask("insert into $schema.sound (job, part, sealed) values ($1, $2, $3)", [job, part, sealed])),
    send: async (job, parts) => {
      await ask("update $schema.held set parts = $2 where job = $1", [job, parts]);
      const options = { id: job, retryLimit: MOST_HANDED, retryDelay: 0, expireInSeconds: STALE };
      if ((await boss.send(QUEUE, {}, options)) !== null) return;
      // `null` and no error: the queue is not there, as somebody removed it since this program began.
      await boss.createQueue(QUEUE);
      if ((await boss.send(QUEUE, {}, options)) === null) throw new Error(`pg-boss does not take jobs for ${QUEUE}`);
    },
    // A worker that is killed between fetching a job and offering to hear it gives no sign at all: then it counts since when pg-boss has it as active.
    look: (jobs, silence) =>
      ask<Seen>(
        `select held.job, offer, handed is not null as "isHanded", tries, result,
        coalesce(alive, case when job.state = 'active' then job.started_on end) < now() - $2 * interval '1 ms' is true as "isDead"
        from $schema.held left join $schema.job on job.id = held.job and job.name = $3 where held.job = any($1)`,
        [jobs, silence, QUEUE],
      ),
    hand: async (job, offer, handed) =>
      void (await ask("update $schema.held set handed = $3 where job = $1 and offer = $2", [job, offer, handed])),
    takeBack: async (job) => {
      await ask("update $schema.held set offer = null, handed = null, alive = null where job = $1 and result is null", [
        job,
      ]);
      await boss.fail(QUEUE, job);
    },
    // Its row goes last: whoever is killed on the way leaves it to `removeStale`.
    drop: async (job) => {
      await boss.deleteJob(QUEUE, job);
      await removeSound(job);
      await ask("delete from $schema.held where job = $1", [job]);
    },
    next: async () => (await boss.fetch(QUEUE))[0]?.id,
    claim: async (job, offer) => {
      const [held] = await ask<{ terms: Buffer; parts: number }>(
        `update $schema.held set offer = $2, handed = null, alive = now(), tries = tries + 1
        where job = $1 and result is null returning terms, parts`,
        [job, offer],
      );
      // Let go, or heard already: nobody has to fetch it again.
      if (held === undefined) await boss.deleteJob(QUEUE, job);
      return held;
    },
    handed: async (job, offer) => {
      const [held] = await ask<{ handed: Buffer | null }>(
        "select handed from $schema.held where job = $1 and offer = $2",
        [job, offer],
      );
      return held?.handed ?? undefined;
    },
    part: async (job, part) =>
      (await ask<{ sealed: Buffer }>("select sealed from $schema.sound where job = $1 and part = $2", [job, part]))[0]
        ?.sealed,
    sign: async (job, offer) =>
      (await ask("update $schema.held set alive = now() where job = $1 and offer = $2 returning job", [job, offer]))
        .length > 0,
    finish: async (job, offer, result) => {
      const finished = await ask(
        "update $schema.held set result = $3 where job = $1 and offer = $2 and result is null returning job",
        [job, offer, result],
      );
      if (finished.length === 0) return;
      await removeSound(job);
      await boss.complete(QUEUE, job);
    },
    removeStale: async () => {
      const stale = await ask<{ job: string }>(
        `with stale as (delete from $schema.held where made < now() - $1 * interval '1 s' returning job),
        sound as (delete from $schema.sound using stale where sound.job = stale.job)
        select job from stale`,
        [STALE],
      );
      for (const { job } of stale) await boss.deleteJob(QUEUE, job);
    },
  };
}
