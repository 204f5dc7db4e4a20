/** Somebody of the school. */
export interface PersonRow {
  readonly student: string;
  readonly role: string;
  readonly since: string;
  readonly seen: string;
  readonly paused: string | null;
  readonly warned: string | null;
}

export interface ClassRow {
  readonly class: string;
  readonly curriculum: string;
  readonly begins: string | null;
  readonly ends: string | null;
}

export interface MemberRow {
  readonly student: string;
  readonly class: string;
  readonly role: string;
}

/** An invitation; `student` is empty when whoever uses it chooses a name, `ended` says whether it was used or taken back. */
export interface InvitationRow {
  readonly student: string;
  readonly digest: string;
  readonly class: string;
  readonly role: string;
  readonly until: string;
  readonly ended: string | null;
}

export interface KeyRow {
  readonly student: string;
  readonly digest: string;
  readonly kind: string;
  readonly until: string;
}
