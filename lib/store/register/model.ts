/** The two sorts of people of a school. */
export type Role = "teacher" | "student";

/** Somebody of the school. The name is that of their journals; a pseudonym is enough. */
export interface Person {
  readonly name: string;
  readonly role: Role;
  /** When they came, and when they were last there (RFC 3339). */
  readonly since: string;
  readonly seen: string;
  /** Set while they are away: nothing is taken from them then. */
  readonly paused?: string;
  /** Set once their teachers were told that they will be erased. */
  readonly warned?: string;
}

/** A group that takes a course. */
export interface SchoolClass {
  readonly name: string;
  readonly curriculum: string;
  /** First and last day, ISO 8601 dates. */
  readonly from?: string;
  readonly to?: string;
}

/** An invitation into a class. Its secret is known to whoever holds the link; here is only the digest. */
export interface Invitation {
  readonly digest: string;
  readonly className: string;
  readonly role: Role;
  /** Whom it is for; whoever uses it chooses a name when left out. */
  readonly name?: string;
  /** Valid before this time (RFC 3339). */
  readonly until: string;
}

/** A key by which somebody is known: a session of a browser, or a token of an app. Here is only its digest. */
export interface AccessKey {
  readonly digest: string;
  readonly name: string;
  readonly kind: "session" | "token";
  /** Valid before this time (RFC 3339). */
  readonly until: string;
}

/** Why an invitation lets nobody in any more. */
export type InvitationEnd = "used" | "revoked" | "late";

/** How an invitation was answered: `gone`: used, revoked or too late; `taken`: somebody has the name, or it is not the name invited. */
export type Acceptance = "accepted" | "gone" | "taken";

/**
 * Who is in a school: people, classes, invitations and keys. When the promise of a method has resolved, its changes are durable. A method rejects with
 * a `StoreProblem` when the store fails. A person is erased by `erase` of the store.
 */
export interface Register {
  person(name: string): Promise<Person | undefined>;
  /** Whether there is any teacher. */
  hasTeacher(): Promise<boolean>;
  /** Notes that somebody was there. Does nothing for people who are not in the register. */
  markSeen(name: string, at: string): Promise<void>;
  /** Sets or ends a pause. */
  pause(name: string, at: string | undefined): Promise<void>;
  /** Notes that teachers were told of the erasure of these people. */
  markWarned(names: readonly string[], at: string): Promise<void>;
  /** Whether anybody at all was seen since a time. */
  wasAnybodySeen(since: string): Promise<boolean>;
  /** Students last seen before a time, by name. */
  unseenSince(at: string): Promise<readonly Person[]>;

  /** A class; `undefined` when there is none. */
  classCalled(name: string): Promise<SchoolClass | undefined>;
  /** Begins a class, with its teacher where there is one already; false when there is a class of this name. */
  beginClass(made: SchoolClass, teacher?: string): Promise<boolean>;
  /** The classes of somebody, by name. */
  classesOf(name: string): Promise<readonly SchoolClass[]>;
  /** The people of a class with this role, by name: at most `limit` that follow `after`. */
  membersOf(className: string, of: MembersAsked): Promise<readonly Person[]>;
  /** Takes somebody out of a class; false when they were not in it. */
  leave(name: string, className: string): Promise<boolean>;

  invite(invitation: Invitation): Promise<void>;
  /** The invitation of a digest that is valid at a time. */
  invitation(digest: string, at: string): Promise<Invitation | undefined>;
  /** Why an invitation is not valid at a time; `undefined` when nothing is known of it, as of those whose time was over long ago. */
  invitationEnd(digest: string, at: string): Promise<InvitationEnd | undefined>;
  /** Uses an invitation up: makes the person, puts them into the class, and keeps their key, or does nothing of it. */
  accept(invitation: Invitation, key: AccessKey, at: string): Promise<Acceptance>;
  /** The invitations into a class that are valid at a time. */
  invitationsTo(className: string, at: string): Promise<readonly Invitation[]>;
  /** Takes an invitation back; false when it was used or is not there. */
  revoke(className: string, digest: string): Promise<boolean>;

  /** The key of a digest that is valid at a time, with its person. */
  holderOf(digest: string, at: string): Promise<{ readonly key: AccessKey; readonly person: Person } | undefined>;
  addKey(key: AccessKey): Promise<void>;
  /** Takes a key back; false when it is not theirs. */
  removeKey(name: string, digest: string): Promise<boolean>;
  /** Keys of somebody that are valid at a time. */
  keysOf(name: string, at: string): Promise<readonly AccessKey[]>;
  /** Removes keys that are no longer valid at a time, and invitations whose time was over a term before. */
  removeExpired(at: string): Promise<void>;
}

export interface MembersAsked {
  readonly role: Role;
  readonly after?: string;
  readonly limit: number;
}
