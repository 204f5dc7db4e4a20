export interface paths {
    "/health": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Whether the server and its store are up. */
        get: operations["health"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/openapi.json": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** This document. */
        get: operations["document"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/metrics": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Counts and times in the text form of OpenMetrics 1.0; no names. */
        get: operations["metrics"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/invitations/show": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** What an invitation is to, and what the school keeps; nothing is used up. The secret is in the body, as addresses stand in logs. */
        post: operations["showInvitation"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/invitations/accept": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Uses an invitation up, once the consent note was read: as a session (a cookie) or a token. */
        post: operations["acceptInvitation"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/me": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Who the key is of, and their classes. */
        get: operations["me"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/session": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /** Ends the key of this request. */
        delete: operations["signOut"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/tokens": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The tokens of whoever asks, without what opens anything. */
        get: operations["tokens"];
        put?: never;
        /** Makes a token for an app. */
        post: operations["addToken"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/tokens/{token}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /** Takes a token back. */
        delete: operations["removeToken"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/courses": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The courses that are served, each in its edition in use. */
        get: operations["courses"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/courses/{course}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A course, compiled: what an app plays and judges by. */
        get: operations["course"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/courses/{course}/editions/{edition}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** A kept edition of a course, compiled. */
        get: operations["edition"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/classes": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The classes of whoever asks. */
        get: operations["classes"];
        put?: never;
        /** Begins a class, which the teacher then teaches. */
        post: operations["beginClass"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/classes/{class}/students": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The students of a class, by name, page by page. */
        get: operations["students"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/classes/{class}/students/{student}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /** Takes a student out of a class; nothing is erased. */
        delete: operations["removeStudent"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/classes/{class}/report": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Who is where, who is stuck and on what, and drift by silence, of a class. */
        get: operations["classReport"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/classes/{class}/invitations": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Invitations that were not used yet, without what opens anything. */
        get: operations["invitations"];
        put?: never;
        /** Makes an invitation, which can be used once. */
        post: operations["invite"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/classes/{class}/invitations/{invitation}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /** Takes an invitation back. */
        delete: operations["revoke"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/pause": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        /** Begins or ends a pause: a student who is away. Nothing is taken from them meanwhile, and nothing is lost. */
        put: operations["pause"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        post?: never;
        /** Erases a student with everything kept of them. Students may erase themselves; a teacher must teach all their classes. */
        delete: operations["erase"];
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/standing": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Where a student stands, in the edition in use. */
        get: operations["standing"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/takes/{take}": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        /** Assesses a take by the rung it names, keeps what it showed, and decides. The same request gives the same answer, and counts once. A recording is heard and let go. */
        put: operations["submit"];
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/plan": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What to practise in so many minutes, and why. */
        get: operations["plan"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/placement": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Finds where a new student begins in a drill: says what to play; takes the take of it; in the end puts them there. */
        post: operations["place"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/report": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** Where the student is, on what they are stuck, and how they drift. */
        get: operations["report"];
        put?: never;
        post?: never;
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/journal": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** The student's journal as JSON Lines, one event a line. */
        get: operations["journal"];
        put?: never;
        /** Adds events that were written elsewhere, such as a student's device; for teachers, as events are evidence. */
        post: operations["mergeJournal"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/rung": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        get?: never;
        put?: never;
        /** Puts a student on a rung, as a teacher's wish: never evidence. */
        post: operations["setRung"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
    "/api/students/{student}/courses/{course}/edition": {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        /** What the edition in use would mean for a student; nothing is written. */
        get: operations["foreseeEdition"];
        put?: never;
        /** Takes a student over to the edition in use. */
        post: operations["takeOver"];
        delete?: never;
        options?: never;
        head?: never;
        patch?: never;
        trace?: never;
    };
}
export type webhooks = Record<string, never>;
export interface components {
    schemas: {
        /** @description RFC 9457 problem details, with every problem there is. */
        Problem: {
            /**
             * Format: uri
             * @description Names the cause; nothing can be fetched there.
             */
            type: string;
            status: number;
            /** @description What is wrong, and what to do where that is known. */
            detail: string;
            /** @description Stable name of the first cause. */
            code: string;
            problems: components["schemas"]["ProblemPart"][];
            /** @description Number of the request in the server's log. */
            request?: string;
        };
        ProblemPart: {
            /** @description Stable name of the cause. */
            code: string;
            /** @enum {unknown} */
            severity: "error" | "advice";
            /** @description One sentence. */
            message: string;
            where: {
                /** @description Name of a file. */
                file?: string;
                line?: number;
                column?: number;
                /** @description RFC 6901 JSON pointer into the body or the query. */
                pointer?: string;
                /** @description Characters into the text at the pointer. */
                offset?: number;
            };
            /** @description What to write or do instead. */
            remedy?: string;
        };
        Health: {
            /** @constant */
            status: "up";
        };
        InvitationSecret: {
            /** @description What stands behind # in the link. */
            secret: string;
        };
        InvitationShown: {
            /** @description Name of the class. */
            class: string;
            /** @description Title of its course. */
            course: string;
            /** @enum {unknown} */
            role: "teacher" | "student";
            /** @description What the school says is kept, and why. */
            consent: string;
            /** @description A name; a pseudonym is enough. */
            name?: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            until?: string;
        };
        InvitationAnswer: {
            /** @description What stands behind # in the link. */
            secret: string;
            /** @enum {unknown} */
            as: "session" | "token";
            /** @description A name; a pseudonym is enough. */
            name?: string;
        };
        Welcome: {
            /** @description A name; a pseudonym is enough. */
            name: string;
            /** @enum {unknown} */
            role: "teacher" | "student";
            /** @description The token, said once and never again. */
            token?: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            until?: string;
        };
        Me: {
            /** @description A name; a pseudonym is enough. */
            name: string;
            /** @enum {unknown} */
            role: "teacher" | "student";
            classes: components["schemas"]["Class"][];
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            paused?: string;
        };
        TokenList: {
            items: {
                /** @description Names the token, and does not open anything. */
                id: string;
                /**
                 * Format: date-time
                 * @description RFC 3339.
                 */
                until: string;
            }[];
        };
        TokenMade: {
            /** @description Names the token. */
            id: string;
            /** @description The token, said once and never again. */
            token: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            until: string;
        };
        Course: {
            /** @description Name of the course. */
            name: string;
            /** @description Edition in use. */
            edition: string;
            /** @description Title for people. */
            title: string;
            drills: {
                /** @description Name of the drill. */
                name: string;
                /** @description Title for people. */
                title: string;
                /** @description Number of rungs of the drill. */
                rungs: number;
            }[];
        };
        CourseList: {
            items: components["schemas"]["Course"][];
        };
        Class: {
            /** @description Name of the class. */
            name: string;
            /** @description Name of its course. */
            course: string;
            /**
             * @description ISO 8601 date.
             * @example 2026-09-01
             */
            from?: string;
            /**
             * @description ISO 8601 date.
             * @example 2026-09-01
             */
            to?: string;
        };
        ClassList: {
            items: components["schemas"]["Class"][];
        };
        ClassWish: {
            name: string;
            /** @description Name of a course that is served. */
            course: string;
            /**
             * @description ISO 8601 date.
             * @example 2026-09-01
             */
            from?: string;
            /**
             * @description ISO 8601 date.
             * @example 2026-09-01
             */
            to?: string;
        };
        Student: {
            /** @description A name; a pseudonym is enough. */
            name: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            since: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            seen: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            paused?: string;
            /**
             * @description ISO 8601 date.
             * @example 2026-09-01
             */
            erasedFrom?: string;
        };
        StudentPage: {
            items: components["schemas"]["Student"][];
            /** @description What to say as `after` for what follows; absent at the end. */
            next?: string;
        };
        ClassReport: {
            report: components["schemas"]["Report"];
            /** @description What to say as `after` for what follows; absent at the end. */
            next?: string;
        };
        InvitationWish: {
            /** @description A name; a pseudonym is enough. */
            name?: string;
            /** @enum {unknown} */
            role?: "teacher" | "student";
            /**
             * @description Days it is valid.
             * @default 14
             */
            days: number;
        };
        InvitationMade: {
            /** @description Names the invitation, and does not open anything. */
            id: string;
            /** @enum {unknown} */
            role: "teacher" | "student";
            /** @description What stands behind # in the link. */
            secret: string;
            /** @description The address to hand out, once. */
            link: string;
            /**
             * Format: date-time
             * @description RFC 3339.
             */
            until: string;
            /** @description A name; a pseudonym is enough. */
            name?: string;
        };
        InvitationList: {
            items: {
                /** @description Names the invitation. */
                id: string;
                /** @enum {unknown} */
                role: "teacher" | "student";
                /**
                 * Format: date-time
                 * @description RFC 3339.
                 */
                until: string;
                /** @description A name; a pseudonym is enough. */
                name?: string;
            }[];
        };
        Pause: {
            paused: boolean;
        };
        Erased: {
            /** @description Journals that were erased. */
            journals: number;
            /** @description Events that were in them. */
            events: number;
            /** @description Where copies may be that no server reaches, in words. */
            elsewhere: string[];
        };
        Decision: {
            /** @enum {unknown} */
            what: "advance" | "complete" | "go back" | "hold";
            /** @description Why, in a sentence or two. */
            reason: string;
            /** @description The takes it rests on. */
            evidence: string[];
            /** @description Drills that opened. */
            opened: string[];
            /** @description Name of the drill. */
            drill?: string;
            /** @description Rung before. */
            from?: string;
            /** @description Rung after. */
            to?: string;
        };
        TakeAnswer: {
            /** @description Id of the take. */
            take: string;
            decision: components["schemas"]["Decision"];
            finding?: components["schemas"]["Finding"];
            heard?: components["schemas"]["Heard"];
        };
        Heard: {
            /** @description Length of the recording. */
            seconds: number;
            /** @description Notes that were heard. */
            notes: number;
            /**
             * @description How notes were taken to begin.
             * @enum {unknown}
             */
            family: "percussive" | "plucked" | "blown" | "bowed";
            /** @description What is to be said of the recording. */
            advice: components["schemas"]["ProblemPart"][];
        };
        OpenDrill: {
            /** @description Name of the drill. */
            drill: string;
            /** @description Settings of the rung: what a take of it must say. */
            rung: string;
            /** @description Number of the rung in the drill. */
            number: number;
            /** @description Number of rungs of the drill. */
            rungs: number;
            /** @description Title of the drill. */
            title: string;
        };
        Plan: {
            /** @constant */
            version: 2;
            /** @description A name; a pseudonym is enough. */
            student: string;
            /** @description Name of the course. */
            curriculum: string;
            /** @description Edition. */
            edition: string;
            /**
             * @description ISO 8601 date.
             * @example 2026-09-01
             */
            today: string;
            /** @description Minutes there are. */
            minutes: number;
            /** @description Seconds of all lines together. */
            seconds: number;
            lines: components["schemas"]["PlanLine"][];
            rest: {
                /** @description Takes. */
                after: number;
                seconds: number;
            };
            /** @description Takes since the last short rest. */
            played: number;
            advice: string[];
            cautions: string[];
            outlook?: Record<string, never>;
        };
        /** @description What to do from second `from` on. */
        PlanLine: components["schemas"]["PlanPlay"] | components["schemas"]["PlanRest"];
        PlanRest: {
            /** @constant */
            kind: "rest";
            from: number;
            seconds: number;
            /** @description Why. */
            because: string;
        };
        PlanPlay: {
            /** @enum {unknown} */
            kind: "warm-up" | "new work" | "build-up" | "preparation" | "review";
            /** @description Name of the drill. */
            drill: string;
            /** @description Title of the drill. */
            title: string;
            /** @description Settings of the rung: what a take of it must say. */
            rung: string;
            /** @description Number of the rung; null for a preparation. */
            number: number | null;
            /** @description The mix to play to. */
            mix: string;
            /** @description Takes at most. */
            takes: number;
            /** @description Chance of a clean take. */
            chance: number;
            from: number;
            seconds: number;
            /** @description Why. */
            because: string;
            follows: string[];
            /** @description The rungs it may lead to. */
            steps: Record<string, never>[];
            /** @constant */
            goesOn?: true;
        };
        PlacementWish: {
            /** @description Name of the drill; the only open one when left out. */
            drill?: string;
            take?: components["schemas"]["Take"];
        };
        Placement: {
            /** @description Name of the drill. */
            drill: string;
            /** @description Settings of the rung: what a take of it must say. */
            rung: string;
            /** @description Number of the rung in the drill. */
            number: number;
            /** @description Number of rungs of the drill. */
            rungs: number;
            /** @description Whether the rung is found, on which the student begins then. */
            done: boolean;
            /** @description The mix to play to. */
            mix: string;
            /** @description How far it has come. */
            says: string;
            tried: {
                /** @description Settings of the rung: what a take of it must say. */
                rung: string;
                /** @description Number of the rung in the drill. */
                number: number;
                /** @enum {unknown} */
                verdict: "within" | "beyond" | "unclear";
            }[];
            finding?: components["schemas"]["Finding"];
        };
        RungWish: {
            /** @description Name of the drill. */
            drill: string;
            /** @description Settings of the rung, or its number. */
            rung: string;
            /** @description Why; kept in the journal as the teacher's wish. */
            reason: string;
        };
        EditionEffect: {
            /** @description Edition before. */
            from: string;
            /** @description Edition after. */
            to: string;
            /** @description Whether anything changes but the number. */
            isAffected: boolean;
            opened: string[];
            drills: {
                /** @description Name of the drill. */
                drill: string;
                /** @enum {unknown} */
                outcome: "stays" | "opens" | "moves" | "moves back" | "withdrawn" | "returns" | "away";
                /** @description State before. */
                state: string;
                /** @description State after. */
                stateNow: string;
                lost: components["schemas"]["EvidenceShown"];
                regained: components["schemas"]["EvidenceShown"];
                /** @description Name after. */
                now?: string;
                /** @description Rung before. */
                rung?: string;
                /** @description Rung after. */
                rungNow?: string;
            }[];
        };
        EvidenceShown: {
            /** @description Takes. */
            takes: number;
            credit: string[];
        };
        Merged: {
            /** @description Events that are new. */
            added: number;
            /** @description Events that were there. */
            known: number;
            problems: components["schemas"]["ProblemPart"][];
        };
        /** @description The request, its body or its query cannot be read. */
        Problem400: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 400;
            /** @enum {unknown} */
            code?: "REQUEST_NOT_READ" | "BODY_NOT_JSON" | "QUERY_REPEATED";
        };
        /** @description No key, or none that is known. */
        Problem401: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 401;
            /** @enum {unknown} */
            code?: "KEY_MISSING" | "KEY_UNKNOWN";
        };
        /** @description Not for this role, or sent by a page of another site. */
        Problem403: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 403;
            /** @enum {unknown} */
            code?: "ROLE_REFUSED" | "STUDENT_PAUSED" | "ORIGIN_FOREIGN";
        };
        /** @description There is nothing of this name that whoever asks may see. */
        Problem404: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 404;
            /** @enum {unknown} */
            code?: "NOT_THERE" | "PATH_UNKNOWN";
        };
        /** @description The address does not take this method. */
        Problem405: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 405;
            /** @enum {unknown} */
            code?: "METHOD_REFUSED";
        };
        /** @description The request did not come whole in time; it may be sent again. */
        Problem408: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 408;
            /** @enum {unknown} */
            code?: "REQUEST_LATE";
        };
        /** @description It does not go with what is there. */
        Problem409: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 409;
            /** @enum {unknown} */
            code?: "CLASS_TAKEN" | "NAME_TAKEN" | "STUDENT_IN_OTHER_CLASS" | "TAKE_CHANGED" | "TAKE_ID_REUSED";
        };
        /** @description The invitation cannot be used. */
        Problem410: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 410;
            /** @enum {unknown} */
            code?: "INVITATION_USED" | "INVITATION_REVOKED" | "INVITATION_LATE" | "INVITATION_UNKNOWN";
        };
        /** @description The standing is another one than If-Match says. */
        Problem412: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 412;
            /** @enum {unknown} */
            code?: "STANDING_CHANGED";
        };
        /** @description The body is too large. */
        Problem413: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 413;
            /** @enum {unknown} */
            code?: "BODY_TOO_LARGE";
        };
        /** @description The body is of no kind that is taken. */
        Problem415: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 415;
            /** @enum {unknown} */
            code?: "MEDIA_TYPE_UNKNOWN";
        };
        /** @description The request is for another host. */
        Problem421: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 421;
            /** @enum {unknown} */
            code?: "HOST_UNKNOWN";
        };
        /** @description What the body or the query says cannot be. */
        Problem422: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 422;
            code?: ("RECORDING_NOT_HEARD" | "TAKE_NOT_AS_ADDRESSED" | "NAME_NOT_CHOSEN" | "NAME_NOT_ADDRESSABLE" | "COURSE_NOT_SERVED" | "ERASING_NOT_CONFIRMED") | string;
        };
        /** @description Too many requests; Retry-After says when to come again. */
        Problem429: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 429;
            /** @enum {unknown} */
            code?: "TOO_MANY_REQUESTS" | "HEARING_BUSY";
        };
        /** @description A defect of the server. */
        Problem500: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 500;
            /** @enum {unknown} */
            code?: "SCHOOL_DEFECT";
        };
        /** @description The store cannot do this now. */
        Problem503: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 503;
            /** @enum {unknown} */
            code?: "SCHOOL_STORE_FAILED" | "EDITION_BEHIND";
        };
        /** @description The answer took too long. */
        Problem504: components["schemas"]["Problem"] & {
            /** @constant */
            status?: 504;
            /** @enum {unknown} */
            code?: "ANSWER_TOO_SLOW";
        };
        /**
         * CompiledCourse
         * @description A course that was compiled ahead, as `leeway compile` writes it: everything in it is worked out, so that it is opened without a reader of YAML. What is inside patterns, ladders and gates is leeway's own and changes with the version.
         */
        CompiledCourse: {
            /**
             * @description Version of this format.
             * @constant
             */
            version: 1;
            /**
             * @description CRC-32 (ISO/IEC 3309) of `course` as JSON without blanks, in UTF-8; hexadecimal.
             * @example 1c291ca3
             */
            checksum: string;
            /**
             * CompactCourse
             * @description The course; patterns and players' instruments are written once.
             */
            course: {
                /**
                 * @description Name of the course.
                 * @example quayside-first-course
                 */
                name: string;
                /**
                 * @description Edition (SemVer 2.0.0).
                 * @example 1.0.0
                 */
                edition: string;
                /**
                 * @description Title for people.
                 * @example Quayside first course
                 */
                title: string;
                /** @description What the course is about. */
                about?: string;
                /** @description Author, arranger, copyright, licence, address, logo and language, where they are named. */
                imprint?: {
                    [key: string]: string;
                };
                /** @description Instruments the course describes, by name. */
                instruments: {
                    [key: string]: Record<string, never>;
                };
                /** @description Patterns by name. */
                patterns: {
                    [key: string]: Record<string, never>;
                };
                /** @description Instruments of players, which drills number from 0. */
                played: Record<string, never>[];
                /** @description Drills in the order written. */
                drills: {
                    /**
                     * @description Its name.
                     * @example half-bar
                     */
                    name: string;
                    /**
                     * @description Name of its pattern.
                     * @example dockside
                     */
                    pattern: string;
                    /**
                     * @description Title for people.
                     * @example Half a bar
                     */
                    title?: string;
                    /** @description What the student should do and listen for. */
                    about?: string;
                    /**
                     * @description The part the student plays.
                     * @example lead
                     */
                    student: string;
                    /** @description The beat of the tempo, in whole notes. */
                    beat: components["schemas"]["CompiledCourse.fraction"];
                    /** @description Phrases in a take. */
                    phrases: number;
                    /**
                     * @description What is no take is played round and round.
                     * @constant
                     */
                    endless?: true;
                    /** @description The count-in before bar 1, in whole notes. */
                    countIn: components["schemas"]["CompiledCourse.fraction"];
                    /**
                     * @description Percussion voice that counts in; absent for the usual click.
                     * @example sticks
                     */
                    countInVoice?: string;
                    /** @description How much of the pattern is played after the last phrase, so that the last silence has a landing. */
                    outro?: components["schemas"]["CompiledCourse.fraction"];
                    /** @description Where in a phrase the silence is, and which parts ring on into it. */
                    dropout?: Record<string, never>;
                    /** @description The scale of open bars, and the shortest note value looked for in them. */
                    open?: Record<string, never>;
                    /**
                     * @description Settings that do not climb, as canonical texts.
                     * @example {
                     *       "tempo": "96"
                     *     }
                     */
                    fixed: {
                        [key: string]: string;
                    };
                    /** @description Its ladders, in the order in which they climb. */
                    ladders: Record<string, never>[];
                    /**
                     * @description Its mixes; takes are assessed in the first unless they name another.
                     * @example [
                     *       {
                     *         "name": "alone",
                     *         "parts": {
                     *           "kit": "drops",
                     *           "lead": "off"
                     *         }
                     *       }
                     *     ]
                     */
                    mixes: Record<string, never>[];
                    /**
                     * @description Limits of drift, landing (ms), steadiness (ms) and of how much must be played.
                     * @example {
                     *       "drift": {
                     *         "percent": 8
                     *       },
                     *       "landing": 240
                     *     }
                     */
                    tolerance: Record<string, never>;
                    /**
                     * @description When a student is let on.
                     * @example {
                     *       "kind": "clean of last",
                     *       "clean": 3,
                     *       "of": 4
                     *     }
                     */
                    gate: Record<string, never>;
                    /**
                     * @description After how many takes beyond tolerance a student goes back, and by how many rungs.
                     * @example {
                     *       "after": 3,
                     *       "by": 1
                     *     }
                     */
                    goBack?: Record<string, never>;
                    /**
                     * @description Drills to be completed first.
                     * @example [
                     *       "half-bar"
                     *     ]
                     */
                    needs: string[];
                    /** @description Who plays it. */
                    players: {
                        /** @description Number of the instrument in `played`. */
                        instrument: number;
                        /** @description Octaves the part is moved by. */
                        octave: number;
                    }[];
                }[];
                /** @description Former names of drills, with the present ones. */
                formerly: {
                    [key: string]: string;
                };
            };
        };
        /**
         * CompiledFraction
         * @description A fraction in lowest terms; lengths and positions are in whole notes.
         */
        "CompiledCourse.fraction": {
            /**
             * @description Numerator.
             * @example 1
             */
            n: number;
            /**
             * @description Denominator.
             * @example 4
             */
            d: number;
        };
        /**
         * CurriculumDocument
         * @description A graded course of time-keeping drills: riffs to play, and drills in which the accompaniment falls silent for longer and longer.
         */
        Curriculum: {
            /**
             * @description Version of the format of courses, not of this course (that is its edition); 1 when left out. A reader refuses versions it does not know.
             * @default 1
             * @constant
             */
            version: 1;
            /**
             * @description The short name of the course. Students' records are kept under it, so do not change it between editions.
             * @example quayside-first-course
             */
            curriculum: string;
            /**
             * @description Number of this edition as major.minor.patch (Semantic Versioning 2.0.0). Raise it whenever you publish a change.
             * @example 1.0.0
             * @example 1.1.0
             */
            edition: string;
            /**
             * @description The title students see.
             * @example Quayside first course
             */
            title: string;
            /**
             * @description The language students read beside the course's own texts, as a tag (BCP 47): sheets, answers and the page are in it unless another is asked for. English when left out.
             * @example de
             * @example pt-BR
             */
            language?: string;
            /**
             * @description Who wrote the course and its riffs; printed on sheets, and said in files of sound. A pattern may name its own.
             * @example Marta Quay
             */
            author?: string;
            /**
             * @description Who arranged the riffs; printed on sheets. A pattern may name its own.
             * @example Quayside school of winds
             */
            arranger?: string;
            /**
             * @description Whose work this is and since when, as it is printed at the foot of sheets.
             * @example © 2026 Quayside school of winds
             */
            copyright?: string;
            /**
             * @description What people may do with sheets and sound, as it is printed at the foot of sheets.
             * @example You may copy this sheet for your own students.
             */
            licence?: string;
            /**
             * @description Address that sheets lead to, as text and as a QR code. {drill} and {rung} in it stand for the name of the drill and the number of the rung.
             * @example https://quayside.example/practice#/drill/{drill}/{rung}
             */
            address?: string;
            /**
             * @description Picture at the head of sheets: the path of a PNG or JPEG file below the course's folder.
             * @example pictures/quayside.png
             */
            logo?: string;
            /**
             * @description What the course is for, who it is for, and cautions about loudness and long repetitive playing.
             * @example Four drills for the first term. Keep the level comfortable and rest when anything hurts.
             */
            about?: string;
            /**
             * @description Frequency of A4 that everybody tunes to, where it is not 440 Hz; playback sounds there, and pitches of recordings are read there.
             * @example 442 Hz
             */
            tuning?: string;
            /**
             * @description Scales of your own for open bars, by name: the notes upwards from any tonic, which any other may take (D harbour is the scale harbour on D).
             * @default {}
             * @example {
             *       "harbour": "D E F G# A C"
             *     }
             */
            scales: {
                [key: string]: string;
            };
            /**
             * @description Instruments that are not in the built-in table, or that should replace an entry of it, by name.
             * @default {}
             * @example {
             *       "quay horn": {
             *         "sounds": "perfect fifth lower",
             *         "lowest": "C3",
             *         "highest": "C6",
             *         "clef": "treble"
             *       }
             *     }
             */
            instruments: {
                [key: string]: components["schemas"]["Curriculum.instrument"];
            };
            /**
             * @description Who the student's part is written out for: names of instruments, or an instrument with the octaves to move its part. A drill may name its own players. The written range of each is checked.
             * @default []
             * @example [
             *       "trumpet",
             *       "alto saxophone",
             *       {
             *         "instrument": "tuba",
             *         "octave": -2
             *       }
             *     ]
             */
            players: components["schemas"]["Curriculum.player"][];
            /** @description Riffs with their accompaniment, by name; or the file to take them from. */
            patterns: {
                [key: string]: components["schemas"]["Curriculum.pattern"];
            } | components["schemas"]["Curriculum.patternFiles"];
            /**
             * @description Drills by name, in the order in which students meet them. Students' records are kept under these names: when you rename a drill, write its old name under `formerly`.
             * @example {
             *       "steady": {
             *         "pattern": "dockside",
             *         "student": "lead",
             *         "tempo": 84,
             *         "tolerance": {
             *           "steadiness": "35 ms"
             *         }
             *       }
             *     }
             */
            drills: {
                [key: string]: components["schemas"]["Curriculum.drill"];
            };
        };
        /**
         * InstrumentDocument
         * @description How an instrument's written notes sound, and what it can be asked to play.
         * @example {
         *       "sounds": "perfect fifth lower",
         *       "lowest": "C3",
         *       "highest": "C6",
         *       "clef": "treble"
         *     }
         */
        "Curriculum.instrument": {
            /**
             * @description Where the sounding note lies, seen from the written one, in words: major second lower (a B♭ trumpet), perfect fifth lower (a horn in F), octave lower (a double bass), octave and a major second lower (a tenor saxophone), as written.
             * @default as written
             * @example major second lower
             * @example perfect fifth lower
             * @example octave and a major second lower
             */
            sounds: string;
            /**
             * @description Lowest written note, in scientific pitch notation (C4 is middle C).
             * @example C3
             * @example F#3
             * @example Bb3
             */
            lowest: string;
            /**
             * @description Highest written note your students can be asked for, in scientific pitch notation; no limit when left out.
             * @example C6
             */
            highest?: string;
            /**
             * @description Clef of its printed part.
             * @default treble
             * @enum {unknown}
             */
            clef: "treble" | "bass" | "alto" | "tenor" | "percussion";
        };
        /**
         * PlayerDocument
         * @description An instrument the student's part is written out for.
         */
        "Curriculum.player": string | components["schemas"]["Curriculum.playerInOctave"];
        /**
         * PlayerInOctaveDocument
         * @description An instrument, with the octaves its part is moved by and the range that is asked of the player.
         */
        "Curriculum.playerInOctave": {
            /**
             * @description Name of the instrument.
             * @example tuba
             */
            instrument: string;
            /**
             * @description Octaves the part is moved: -1 an octave lower, 1 an octave higher.
             * @default 0
             * @example -1
             */
            octave: number;
            /**
             * @description What the player has learnt: the beginners' range of the instrument, or all of it.
             * @default full
             * @enum {unknown}
             */
            range: "beginners" | "full";
        };
        /**
         * PatternDocument
         * @description A riff and its accompaniment: one phrase, in concert pitch, repeated as often as a drill asks.
         * @example {
         *       "meter": "4/4",
         *       "bars": 1,
         *       "parts": {
         *         "lead": {
         *           "notes": "1/4 D4 F4 G4 A4"
         *         }
         *       }
         *     }
         */
        "Curriculum.pattern": {
            /**
             * @description The title students see.
             * @example Dockside riff
             */
            title?: string;
            /**
             * @description Who wrote the riff, where it is not the author of the course.
             * @example Marta Quay
             */
            author?: string;
            /**
             * @description Who arranged the riff, where it is not the arranger of the course.
             * @example Quayside school of winds
             */
            arranger?: string;
            /**
             * @description Time signature at bar 1. Write the groups of an uneven one: 2+2+3/8.
             * @example 4/4
             * @example 12/8
             * @example 2+2+3/8
             */
            meter: string;
            /**
             * @description Bars from which another meter holds, in order.
             * @default []
             * @example [
             *       {
             *         "bar": 3,
             *         "meter": "3/4"
             *       }
             *     ]
             */
            "meter-changes": components["schemas"]["Curriculum.meterChange"][];
            /**
             * @description Number of bars of the phrase, the pick-up not counted.
             * @example 4
             * @example 8
             */
            bars: number;
            /**
             * @description Concert key: tonic and mode. C major when left out, which does for drums alone.
             * @default C major
             * @example D dorian
             * @example Bb major
             * @example F# minor
             */
            key: string;
            /**
             * @description Frequency of A4 that this pattern is tuned to, where it is not 440 Hz; playback sounds there, and pitches of recordings are read there.
             * @example 442 Hz
             */
            tuning?: string;
            /**
             * @description How unequal each pair of notes is, first to second, and which note value is swung; straight when left out.
             * @example 2:1 1/8 note
             * @example 3:2 1/16 note
             */
            swing?: string;
            /**
             * @description Length of the notes before the first downbeat, as a note value or in beats; they are written as the first bar of each part that has them.
             * @example 1/8 note
             * @example 1 beat
             */
            "pick-up"?: string;
            /**
             * @description Chord symbols, bars divided by |; several symbols in a bar share it evenly; same is the bar before, ... at the end repeats the bars so far.
             * @example Dm7 | G7 | same | Em7 A7
             */
            chords?: string;
            /**
             * @description The parts of the phrase, by name.
             * @example {
             *       "lead": {
             *         "notes": "1/4 D4 F4 G4 A4"
             *       }
             *     }
             */
            parts: {
                [key: string]: components["schemas"]["Curriculum.part"];
            };
        };
        /**
         * PatternFilesDocument
         * @description All patterns are taken from another course file, or from several, with the instruments and the tuning they need; the drills there are not.
         */
        "Curriculum.patternFiles": {
            /**
             * @description A path below the folder of this course, with / between folders, or a list of them.
             * @example riffs.yaml
             * @example [
             *       "riffs/dorian.yaml",
             *       "riffs/blues.yaml"
             *     ]
             */
            file: string | string[];
        };
        /**
         * MeterChangeDocument
         * @description A change of meter.
         */
        "Curriculum.meterChange": {
            /**
             * @description First bar in the new meter, counted from 1.
             * @example 3
             */
            bar: number;
            /**
             * @description The new time signature.
             * @example 7/8
             * @example 3/4
             */
            meter: string;
        };
        /**
         * PartDocument
         * @description One part. Say what it plays in exactly one way: `notes`, `rhythm`, `voices`, `click`, `file`, or `variants` with one of these in each. What you recorded (`recording` or `recordings`) sounds in place of these, or without them.
         * @example {
         *       "notes": "1/4 D4 F4 G4 A4"
         *     }
         */
        "Curriculum.part": {
            instrument?: components["schemas"]["Curriculum.partInstrument"];
            /**
             * @description Instrument that the notes of this part are written for, as on its own sheet; they are in concert pitch when left out. It is the instrument of the part too, unless another is named. The key and the chords of the pattern stay in concert pitch.
             * @example tenor saxophone
             * @example trumpet
             */
            "written-for"?: string;
            notes?: components["schemas"]["Curriculum.notes"];
            rhythm?: components["schemas"]["Curriculum.rhythm"];
            voices?: components["schemas"]["Curriculum.voices"];
            click?: components["schemas"]["Curriculum.click"];
            file?: components["schemas"]["Curriculum.file"];
            track?: components["schemas"]["Curriculum.track"];
            part?: components["schemas"]["Curriculum.partOfFile"];
            recording?: components["schemas"]["Curriculum.recording"];
            recordings?: components["schemas"]["Curriculum.recordings"];
            tempo?: components["schemas"]["Curriculum.tempoOfRecording"];
            starts?: components["schemas"]["Curriculum.startOfRecording"];
            "bar-lines"?: components["schemas"]["Curriculum.barLinesOfRecording"];
            bars?: components["schemas"]["Curriculum.barsOfFile"];
            /**
             * @description The same part at several densities, by name. A drill picks one, or climbs from one to the next.
             * @example {
             *       "plain": {
             *         "notes": "1/4 D4 - 1/2 F4"
             *       },
             *       "busy": {
             *         "notes": "1/8 D4 D4 1/4 - F4 A4"
             *       }
             *     }
             */
            variants?: {
                [key: string]: components["schemas"]["Curriculum.variant"];
            };
        };
        /**
         * VariantDocument
         * @description One version of a part. Say what it plays in exactly one way: `notes`, `rhythm`, `voices`, `click` or `file`; what you recorded (`recording` or `recordings`) sounds in place of these, or without them.
         * @example {
         *       "notes": "1/4 D4 F4 G4 A4"
         *     }
         */
        "Curriculum.variant": {
            notes?: components["schemas"]["Curriculum.notes"];
            rhythm?: components["schemas"]["Curriculum.rhythm"];
            voices?: components["schemas"]["Curriculum.voices"];
            click?: components["schemas"]["Curriculum.click"];
            file?: components["schemas"]["Curriculum.file"];
            track?: components["schemas"]["Curriculum.track"];
            part?: components["schemas"]["Curriculum.partOfFile"];
            recording?: components["schemas"]["Curriculum.recording"];
            recordings?: components["schemas"]["Curriculum.recordings"];
            tempo?: components["schemas"]["Curriculum.tempoOfRecording"];
            starts?: components["schemas"]["Curriculum.startOfRecording"];
            "bar-lines"?: components["schemas"]["Curriculum.barLinesOfRecording"];
            bars?: components["schemas"]["Curriculum.barsOfFile"];
        };
        /**
         * @description Instrument that sounds this part; its range is checked.
         * @example double bass
         * @example trumpet
         */
        "Curriculum.partInstrument": string;
        /**
         * @description The rhythm in which this part strikes the chords of the pattern: a line as in notes, with x for the chord that is written where it begins (x! an accent, x. short, (x) hardly heard). Its notes lie in the octave from F3 up, the root of a chord of five notes and more left to the bass.
         * @example 1/4 - 1/8 x! - 1/2 x | ...
         */
        "Curriculum.rhythm": string;
        /**
         * @description Notes in concert pitch (or as written for the instrument of `written-for`), divided by blanks. A length (1/4, 3/8, 1/4+1/16) holds until the next one: 1/4 D4 - F4! are a quarter, a quarter of silence and an accent. C4+Eb4 sound together, tie goes on sounding, D4. is short, D4_ held for its whole length, (D4) a ghost note, D4~ F4 are slurred, D4-scoop slides up into its pitch, D4-fall off it, pp to ff are loudness, 3 in 2 [1/8 D4 E4 F4] is a triplet. | divides bars, same is the bar before, ... at the end repeats the bars so far; a pick-up stands before the first | (rest | when silent).
         * @example 1/4 D4 1/8 - F4 1/2 A4 | 3/8 G4 1/8 F4 1/2 D4
         */
        "Curriculum.notes": string;
        /**
         * @description One line for each percussion voice: x a stroke, X an accent, g a ghost stroke, - nothing. The characters of a bar divide it evenly; | divides bars, same is the bar before, ... at the end repeats the bars so far.
         * @example {
         *       "hat": "x-x-x-x- | ...",
         *       "snare": "--X---X- | ..."
         *     }
         */
        "Curriculum.voices": {
            [key: string]: string;
        };
        /**
         * @description A click without a grid: every beat, beats 2 and 4 (any beats of each bar), every bar, or every 2 bars (any number of bars that fills the pattern). The first beat of a bar is higher.
         * @example every beat
         * @example beats 2 and 4
         * @example every bar
         * @example every 2 bars
         */
        "Curriculum.click": string;
        /**
         * @description A Standard MIDI File or MusicXML file to take the part from: a path below the folder of this course, with / between folders.
         * @example riffs/dockside.mid
         * @example riffs/dockside.musicxml
         */
        "Curriculum.file": string;
        /**
         * @description Which track of the MIDI file: its number counted from 1, or its name.
         * @example 2
         * @example Trumpet
         */
        "Curriculum.track": number | string;
        /**
         * @description Which part of the MusicXML file: its id or its name.
         * @example P1
         * @example Trumpet
         */
        "Curriculum.partOfFile": string;
        /**
         * @description Which bars of the file or the recording, first and last, counted from 1; from its first bar when left out. Bars of a recording go round and round: of a phrase of 4, 1-2 are heard twice, and 1-8 take two phrases.
         * @example 1-4
         * @example 5
         */
        "Curriculum.barsOfFile": string;
        /**
         * @description A sound file of this part that you recorded (WAV, FLAC, MP3, Ogg, or what ffmpeg reads): a path below the folder of this curriculum, with / between folders. It is heard in place of the notes beside it, which are what is printed and measured; without notes beside it the part is heard and not printed. With an instrument or notes with pitches it moves with the key; drums do not.
         * @example sound/kit.wav
         */
        "Curriculum.recording": string;
        /**
         * @description The same part recorded at several tempi, in beats a minute: the recording with the nearest tempo is stretched to that of the rung.
         * @example {
         *       "84": "sound/slow.wav",
         *       "112": {
         *         "file": "sound/fast.wav",
         *         "starts": "1.72 s"
         *       }
         *     }
         */
        "Curriculum.recordings": {
            [key: string]: string | components["schemas"]["Curriculum.recordedFile"];
        };
        /**
         * RecordedFileDocument
         * @description A sound file, where bar 1 begins in it, and which bars are taken.
         */
        "Curriculum.recordedFile": {
            /**
             * @description A path below the folder of this curriculum, with / between folders.
             * @example sound/fast.wav
             */
            file: string;
            starts?: components["schemas"]["Curriculum.startOfRecording"];
            bars?: components["schemas"]["Curriculum.barsOfFile"];
        };
        /**
         * @description The tempo of the recording in beats a minute, as a drill writes its tempo: 96, or 60 of 3/8.
         * @example 96
         * @example 60 of 3/8
         */
        "Curriculum.tempoOfRecording": number | string;
        /**
         * @description Where bar 1 begins in the recording; at its beginning when left out.
         * @example 2.135 s
         * @example 80 ms
         */
        "Curriculum.startOfRecording": string;
        /**
         * @description Seconds at which each bar taken begins in the recording, then where the last one ends, in place of `starts`: the grid follows the recording, so that silences, landings and what the student is measured against are where it plays them. One recording of a pattern may have them; `leeway check` prints them for a recording that does not keep its tempo.
         * @example [
         *       2.135,
         *       4.62,
         *       7.131
         *     ]
         */
        "Curriculum.barLinesOfRecording": number[];
        /**
         * DrillDocument
         * @description An exercise over one pattern. Without `dropout` it is a steady drill, in which nothing falls silent.
         * @example {
         *       "pattern": "dockside",
         *       "student": "lead",
         *       "tempo": 84,
         *       "tolerance": {
         *         "steadiness": "35 ms"
         *       }
         *     }
         */
        "Curriculum.drill": {
            /**
             * @description The title students see.
             * @example Half a bar of silence
             */
            title?: string;
            /**
             * @description What the student should do and listen for.
             * @example Keep the bass line in your head while it is gone.
             */
            about?: string;
            /**
             * @description The name, or a list of the names, this drill had in earlier editions, so that students keep what they have shown.
             * @example half-bar-dropout
             */
            formerly?: string | string[];
            /**
             * @description Drills that must be finished before this one opens.
             * @default []
             * @example [
             *       "steady"
             *     ]
             */
            needs: string[];
            /**
             * @description Name of the pattern it is played over.
             * @example dockside
             */
            pattern: string;
            /**
             * @description Name of the part the student plays.
             * @example lead
             */
            student: string;
            /**
             * @description Who the student's part is written out for, when it differs from the players of the course.
             * @example [
             *       "trumpet"
             *     ]
             */
            players?: components["schemas"]["Curriculum.player"][];
            /**
             * @description How often the pattern is played through in one take. When left out: 4, or as many as silences need that grow. endless: as when left out, and on the practice page what is no take goes round and round until it is stopped.
             * @example 4
             * @example endless
             */
            phrases?: number | "endless";
            /**
             * @description How long the student hears the beat before bar 1, in bars or beats, and with what sound; none to start at once.
             * @default 1 bar
             * @example 1 bar
             * @example 2 bars
             * @example none
             * @example {
             *       "length": "2 bars",
             *       "sound": "sticks"
             *     }
             */
            "count-in": string | components["schemas"]["Curriculum.countIn"];
            /**
             * @description How much of the pattern is played again after the last phrase, so that the last silence has a downbeat to come back on; none to leave it out.
             * @default 1 bar
             * @example 1 bar
             * @example none
             */
            outro: string;
            /**
             * @description The note value that the tempo counts; the beat of the meter when left out (1/4 note in 4/4, 3/8 note in 12/8, 1/8 note in 7/8).
             * @example 1/4 note
             * @example 3/8 note
             * @example 1/2 note
             */
            beat?: string;
            /**
             * @description Beats per minute, when the tempo does not climb.
             * @example 88
             */
            tempo?: number;
            /**
             * @description How the tempo rises inside one take, from the tempo of the rung on, when that does not climb: so many beats a minute after each phrase, or after so many phrases; below 0 it falls. The outro keeps the tempo of the last phrase.
             * @example 4 each 2 phrases
             * @example 2
             */
            rise?: number | string;
            /**
             * @description Which variant of the parts is played, when it does not climb.
             * @example plain
             */
            variant?: string;
            /**
             * @description Concert key the pattern is moved to, when it does not climb, to the nearest place, or an octave higher or lower than that; the pattern's own key when left out.
             * @example G dorian
             */
            key?: string;
            dropout?: components["schemas"]["Curriculum.dropout"];
            open?: components["schemas"]["Curriculum.open"];
            /**
             * @description What climbs. The first ladder climbs first; when it is at its top the next climbs one step and the first starts again.
             * @default []
             * @example [
             *       {
             *         "dropout": {
             *           "from": "1/2 bar",
             *           "to": "2 bars",
             *           "by": "1/2 bar"
             *         }
             *       },
             *       {
             *         "tempo": {
             *           "from": 84,
             *           "to": 112,
             *           "by": 4
             *         }
             *       }
             *     ]
             */
            ladders: components["schemas"]["Curriculum.ladder"][];
            /**
             * @description Versions to practise with, by name: what each part does. The first is the one takes are measured in. A part that is not named drops when it is among the parts of the dropout, otherwise plays; the student's part is off.
             * @default {
             *       "play": {}
             *     }
             * @example {
             *       "play": {
             *         "lead": "off"
             *       },
             *       "listen": {
             *         "lead": "plays"
             *       }
             *     }
             */
            mixes: {
                [key: string]: components["schemas"]["Curriculum.mix"];
            };
            tolerance: components["schemas"]["Curriculum.tolerance"];
            /**
             * @default {
             *       "clean": 3,
             *       "of": 4
             *     }
             */
            gate: components["schemas"]["Curriculum.gate"];
            "go-back"?: components["schemas"]["Curriculum.go-back"];
        };
        /**
         * CountInDocument
         * @description The beat before bar 1: how long, and with what sound.
         */
        "Curriculum.countIn": {
            /**
             * @description How long, in bars or beats.
             * @default 1 bar
             * @example 1 bar
             * @example 2 bars
             * @example 3 beats
             */
            length: string;
            /**
             * @description A percussion voice; the first beat of a bar is struck harder, and with a click it is higher.
             * @default click
             * @example click
             * @example sticks
             * @example hat
             */
            sound: string;
        };
        /**
         * DropoutDocument
         * @description The silence in each phrase.
         * @example {
         *       "length": "1/2 bar"
         *     }
         */
        "Curriculum.dropout": {
            /**
             * @description Silences that grow inside one take: from, to and by, or a list of lengths, one for each phrase.
             * @example {
             *       "from": "1/2 bar",
             *       "to": "1 1/2 bars",
             *       "by": "1/2 bar",
             *       "each": "2 phrases"
             *     }
             * @example [
             *       "1/2 bar",
             *       "1 bar",
             *       "1 1/2 bars"
             *     ]
             */
            grows?: components["schemas"]["Curriculum.growth"] | string[];
            /**
             * @description How long the accompaniment is silent, in bars, beats or note values, when the length does not climb.
             * @example 1/2 bar
             * @example 1 1/2 bars
             * @example 3 beats
             */
            length?: string;
            /**
             * @description Where in the phrase: at its end, at its start, at a place drawn anew for each phrase (random), or so that the accompaniment returns after each of these bars.
             * @default end
             * @example end
             * @example random
             * @example [
             *       2,
             *       4
             *     ]
             */
            at: ("end" | "start" | "random") | number[];
            /**
             * @description For `at: random`: any whole number. The same number draws the same places.
             * @default 1
             * @example 7
             */
            seed: number;
            /**
             * @description Which parts fall silent, when that does not climb, or how they become more inside one take; all but the student's when left out.
             * @example [
             *       "kit",
             *       "bass"
             *     ]
             * @example {
             *       "grows": [
             *         [
             *           "kit"
             *         ],
             *         [
             *           "kit",
             *           "bass"
             *         ]
             *       ],
             *       "each": "2 phrases"
             *     }
             */
            parts?: string[] | components["schemas"]["Curriculum.partsGrowth"];
            /**
             * @description Parts whose notes may ring on into the silence for as long as they are written, to its end at most; every other part is cut off where the silence begins.
             * @example [
             *       "bass"
             *     ]
             */
            "let-ring"?: string[];
        };
        /**
         * PartsGrowthDocument
         * @description How the parts that fall silent become more inside one take. The last list holds to the end of the take.
         */
        "Curriculum.partsGrowth": {
            /**
             * @description Lists of parts, each with the parts of the one before.
             * @example [
             *       [
             *         "kit"
             *       ],
             *       [
             *         "kit",
             *         "bass"
             *       ]
             *     ]
             */
            grows: string[][];
            /**
             * @description For how many phrases each list holds.
             * @default 1 phrase
             * @example 2 phrases
             */
            each: string;
        };
        /**
         * GrowthDocument
         * @description How the silences of one take grow from phrase to phrase. The last length holds to the end of the take.
         */
        "Curriculum.growth": {
            /**
             * @description The first length.
             * @example 1/2 bar
             */
            from?: string;
            /**
             * @description The last length; the steps must reach it exactly. Left out when a ladder says what the silences grow to.
             * @example 1 1/2 bars
             */
            to?: string;
            /**
             * @description What each step adds.
             * @example 1/2 bar
             */
            by?: string;
            /**
             * @description The lengths in order, in place of from, to and by. None is shorter than the one before.
             * @example [
             *       "1/2 bar",
             *       "1 bar",
             *       "2 bars"
             *     ]
             */
            lengths?: string[];
            /**
             * @description For how many phrases each length holds.
             * @default 1 phrase
             * @example 2 phrases
             */
            each: string;
        };
        /**
         * OpenDocument
         * @description Bars left to the player to improvise in. What is written in them is an example, heard in mixes in which the student's part plays.
         * @example {
         *       "bars": [
         *         3,
         *         4
         *       ]
         *     }
         */
        "Curriculum.open": {
            /**
             * @description Bars of the phrase that are open, when that does not climb.
             * @example [
             *       4
             *     ]
             * @example [
             *       3,
             *       4
             *     ]
             */
            bars?: number[];
            /**
             * @description Scale to improvise in, in concert pitch, for the pattern's own key; the pattern's key when left out.
             * @example D dorian
             * @example D minor pentatonic
             */
            scale?: string;
            /**
             * @description Shortest note value the player is expected to use there; the pulse is looked for on it.
             * @default 1/8 note
             * @example 1/8 note
             * @example 1/16 note
             */
            subdivision: string;
        };
        /**
         * LadderDocument
         * @description One thing that climbs: exactly one of dropout, grows, tempo, rise, variant, key, parts, mix and open.
         * @example {
         *       "tempo": {
         *         "from": 84,
         *         "to": 112,
         *         "by": 4
         *       }
         *     }
         */
        "Curriculum.ladder": {
            /**
             * @description Length of the silence: from, to and by, or a list of lengths.
             * @example {
             *       "from": "1/2 bar",
             *       "to": "2 bars",
             *       "by": "1/2 bar"
             *     }
             * @example [
             *       "2 beats",
             *       "1 bar",
             *       "2 bars"
             *     ]
             */
            dropout?: components["schemas"]["Curriculum.spanSteps"] | string[];
            /**
             * @description What the silences of one take grow to: from, to and by, or a list of lengths. The dropout says from where, by how much and for how many phrases each.
             * @example [
             *       "1 bar",
             *       "1 1/2 bars",
             *       "2 bars"
             *     ]
             */
            grows?: components["schemas"]["Curriculum.spanSteps"] | string[];
            /**
             * @description Tempo in beats per minute: from, to and by, or a list.
             * @example {
             *       "from": 84,
             *       "to": 112,
             *       "by": 4
             *     }
             * @example [
             *       60,
             *       90,
             *       120
             *     ]
             */
            tempo?: components["schemas"]["Curriculum.tempoSteps"] | number[];
            /**
             * @description How the tempo rises inside one take, easiest first.
             * @example [
             *       "none",
             *       "2 each 2 phrases",
             *       "4 each 2 phrases"
             *     ]
             */
            rise?: (number | string)[];
            /**
             * @description Variants of the parts, easiest first.
             * @example [
             *       "plain",
             *       "busy"
             *     ]
             */
            variant?: string[];
            /**
             * @description Concert keys the pattern is moved to: to the nearest place (at most a tritone), or an octave higher or lower than that.
             * @example [
             *       "D dorian",
             *       "G dorian",
             *       "A dorian octave higher"
             *     ]
             */
            key?: string[];
            /**
             * @description Which parts fall silent, one list for each step.
             * @example [
             *       [
             *         "kit"
             *       ],
             *       [
             *         "kit",
             *         "bass"
             *       ]
             *     ]
             */
            parts?: string[][];
            /**
             * @description Names of mixes, easiest first.
             * @example [
             *       "play",
             *       "alone"
             *     ]
             */
            mix?: string[];
            /**
             * @description Which bars are open, one list for each step; an empty list for none.
             * @example [
             *       [],
             *       [
             *         4
             *       ],
             *       [
             *         3,
             *         4
             *       ]
             *     ]
             */
            open?: number[][];
            /**
             * @description Where this ladder starts again when the next one climbs: at its bottom, or so many rungs below its top.
             * @default bottom
             * @example bottom
             * @example 2 rungs back
             */
            restart: string;
        };
        /**
         * SpanStepsDocument
         * @description Lengths that grow by the same step.
         */
        "Curriculum.spanSteps": {
            /**
             * @description First length.
             * @example 1/2 bar
             */
            from: string;
            /**
             * @description Last length; the steps must reach it exactly.
             * @example 2 bars
             */
            to: string;
            /**
             * @description What each step adds.
             * @example 1/2 bar
             */
            by: string;
        };
        /**
         * TempoStepsDocument
         * @description Tempi that rise (or fall) by the same step.
         */
        "Curriculum.tempoSteps": {
            /**
             * @description First tempo, beats per minute.
             * @example 84
             */
            from: number;
            /**
             * @description Last tempo, beats per minute.
             * @example 112
             */
            to: number;
            /**
             * @description What each step adds: beats per minute (negative to slow down), or per cent of the tempo before, rounded to whole beats per minute (halves up).
             * @example 4
             * @example 5 %
             */
            by: number | string;
        };
        /**
         * MixDocument
         * @description What each part does: it plays throughout, drops (falls silent in the dropouts), or is off.
         * @example {
         *       "kit": "drops",
         *       "bass": "off",
         *       "lead": "off"
         *     }
         */
        "Curriculum.mix": {
            [key: string]: "plays" | "drops" | "off";
        };
        /**
         * ToleranceDocument
         * @description How far off still counts as in time. What is left out is measured but not judged.
         * @example {
         *       "drift": "6 %",
         *       "landing": "90 ms"
         *     }
         */
        "Curriculum.tolerance": {
            /**
             * @description Largest drift over a silence, either way: per cent of the tempo, or milliseconds.
             * @example 2.5 %
             * @example 60 ms
             */
            drift?: string;
            /**
             * @description Largest distance of the note on which the accompaniment returns, either way, in milliseconds.
             * @example 60 ms
             */
            landing?: string;
            /**
             * @description Largest steadiness while the accompaniment plays (standard deviation), in milliseconds.
             * @example 25 ms
             */
            steadiness?: string;
            /**
             * @description Smallest share of the notes of each silence that must be played, rounded up to whole notes: a fraction, or per cent. A half when left out; 0 % where resting through a silence and landing is what is asked.
             * @example 3/4
             * @example 75 %
             */
            played?: string;
        };
        /**
         * GateDocument
         * @description What must be shown to leave a rung: `clean` of the last so many takes, so many `in-a-row`, or a `sequential` test. Write exactly one of the three.
         * @example {
         *       "clean": 3,
         *       "of": 4
         *     }
         */
        "Curriculum.gate": {
            /**
             * @description Takes within tolerance that are asked for.
             * @example 3
             */
            clean?: number;
            /**
             * @description How many of the last takes are looked at.
             * @example 4
             */
            of?: number;
            /**
             * @description Takes within tolerance one after the other.
             * @example 3
             */
            "in-a-row"?: number;
            sequential?: components["schemas"]["Curriculum.sequential"];
        };
        /**
         * SequentialDocument
         * @description Wald's sequential test: it asks for as many takes as it needs to tell an able player from an unready one.
         * @example {
         *       "able": "85 %",
         *       "unready": "50 %"
         *     }
         */
        "Curriculum.sequential": {
            /**
             * @description Share of takes within tolerance of a player who should go on.
             * @example 90 %
             */
            able: string;
            /**
             * @description Share of takes within tolerance of a player who should stay.
             * @example 60 %
             */
            unready: string;
            /**
             * @description How often an unready player may be let on.
             * @default 5 %
             * @example 5 %
             */
            "wrongly-let-on": string;
            /**
             * @description How often an able player may be held.
             * @default 10 %
             * @example 10 %
             */
            "wrongly-held": string;
        };
        /**
         * GoBackDocument
         * @description When a rung is made easier; never when left out.
         * @example {
         *       "after": 3
         *     }
         */
        "Curriculum.go-back": {
            /**
             * @description Takes in a row beyond tolerance.
             * @example 3
             */
            after: number;
            /**
             * @description How many rungs to go back.
             * @default 1 rung
             * @example 1 rung
             * @example 2 rungs
             */
            by: string;
        };
        /**
         * JournalEvent
         * @description One line of a student's journal: something that happened, never changed afterwards. A journal is about one student in one course; where the student stands is worked out from its events alone. Events are put in order by `turn`, then `at`, then `id`, in whatever order they arrive.
         */
        JournalEvent: components["schemas"]["JournalEvent.enrolled"] | components["schemas"]["JournalEvent.takeAssessed"] | components["schemas"]["JournalEvent.advanced"] | components["schemas"]["JournalEvent.goneBack"] | components["schemas"]["JournalEvent.drillCompleted"] | components["schemas"]["JournalEvent.drillOpened"] | components["schemas"]["JournalEvent.editionChanged"] | components["schemas"]["JournalEvent.setByTeacher"];
        /**
         * @description Version of this format; a reader refuses versions it does not know.
         * @constant
         */
        "JournalEvent.version": 2;
        /**
         * @description Name of the event, unique in the journal and worked out from what the event says: doing the same thing again gives the same id, and the same id counts once. The id of an assessed take is `take:` and the name of the take.
         * @example take:2026-03-02-1
         * @example advanced:85944171f73967e8
         */
        "JournalEvent.id": string;
        /**
         * @description Place in the journal: one more than the highest turn known where the event was written. Clocks may be wrong or go backwards; a turn cannot, so that a decision always comes after the takes it rests on.
         * @example 12
         */
        "JournalEvent.turn": number;
        /**
         * @description When it happened: date and time with seconds and offset from UTC (RFC 3339).
         * @example 2026-03-02T17:30:00Z
         */
        "JournalEvent.at": string;
        /**
         * @description Whose journal this is: a pseudonym is enough.
         * @example tern
         */
        "JournalEvent.student": string;
        /**
         * @description Name of the course the event belongs to.
         * @example quayside-first-course
         */
        "JournalEvent.curriculum": string;
        /**
         * @description Edition of the course (semantic version).
         * @example 1.0.0
         */
        "JournalEvent.edition": string;
        /**
         * @description Name of the drill.
         * @example half-bar
         */
        "JournalEvent.drill": string;
        /**
         * @description Settings of a rung in canonical form: two rungs are the same when this text is the same.
         * @example dropout=1/2 bar,key=D dorian,tempo=96,variant=plain
         */
        "JournalEvent.rung": string;
        /**
         * @description Name of a take.
         * @example 2026-03-02-1
         */
        "JournalEvent.take": string;
        /**
         * @description The takes the decision rests on, by name, in the order of the journal.
         * @example [
         *       "2026-03-02-1",
         *       "2026-03-02-2",
         *       "2026-03-02-4"
         *     ]
         */
        "JournalEvent.evidence": components["schemas"]["JournalEvent.take"][];
        /**
         * @description The takes beyond tolerance that were weighed as well, by name; empty when there were none.
         * @example [
         *       "2026-03-02-3"
         *     ]
         */
        "JournalEvent.against": components["schemas"]["JournalEvent.take"][];
        /**
         * @description Present when the rung had been earned before: the id of the event that earned it. One more clean take is then enough; `evidence` lists the takes of that time and the new one.
         * @example advanced:85944171f73967e8
         */
        "JournalEvent.credit": string;
        /**
         * GateInForce
         * @description What had to be shown to leave the rung, as the edition in force said.
         */
        "JournalEvent.gate": {
            /**
             * @description Which sort of gate this is.
             * @constant
             */
            kind: "clean of last";
            /**
             * @description Clean takes needed.
             * @example 3
             */
            clean: number;
            /**
             * @description Among this many takes at most, the latest ones.
             * @example 4
             */
            of: number;
        } | {
            /**
             * @description Which sort of gate this is.
             * @constant
             */
            kind: "in a row";
            /**
             * @description Clean takes needed.
             * @example 3
             */
            count: number;
        } | {
            /**
             * @description Which sort of gate this is.
             * @constant
             */
            kind: "sequential";
            /**
             * @description Share of clean takes of a player who should be let on.
             * @example 0.9
             */
            able: number;
            /**
             * @description Share of clean takes of a player who should not.
             * @example 0.6
             */
            unready: number;
            /**
             * @description Accepted chance of letting an unready player on.
             * @example 0.05
             */
            wronglyLetOn: number;
            /**
             * @description Accepted chance of holding an able player.
             * @example 0.1
             */
            wronglyHeld: number;
        };
        /**
         * Measured
         * @description The numbers of the finding that reports and forecasts use; what could not be measured is left out. Positive is late or slower.
         */
        "JournalEvent.measured": {
            /**
             * @description Drift of the dropout with the largest drift, milliseconds.
             * @example -38.4
             */
            driftMs?: number;
            /**
             * @description The same as per cent of tempo.
             * @example -1.6
             */
            driftPercent?: number;
            /**
             * @description Standard error of that drift, milliseconds.
             * @example 9.1
             */
            standardErrorMs?: number;
            /**
             * @description Offset at the landing furthest from the beat, milliseconds.
             * @example -41
             */
            landingMs?: number;
            /**
             * @description Constant offset while accompanied, milliseconds.
             * @example -31.2
             */
            offsetMs?: number;
            /**
             * @description Steadiness while accompanied, milliseconds (standard deviation).
             * @example 14
             */
            accompaniedMs?: number;
            /**
             * @description Steadiness in the silences, milliseconds (standard deviation).
             * @example 18.5
             */
            aloneMs?: number;
            /**
             * @description Timekeeper part of the steadiness, milliseconds per square root of a beat.
             * @example 12.2
             */
            clockMs?: number;
            /**
             * @description Motor part of the steadiness, milliseconds per note.
             * @example 7.9
             */
            motorMs?: number;
        };
        /**
         * SilenceKept
         * @description One silence of a take, as a row of four numbers, so that journals stay small: drift in milliseconds, its standard error in milliseconds, drift as per cent of tempo, and the offset at landing in milliseconds. `null`: could not be measured, or the accompaniment does not return. Positive is late or slower.
         */
        "JournalEvent.silence": [
            number | null,
            number | null,
            number | null,
            number | null
        ];
        /**
         * Enrolled
         * @description The student begins the course.
         */
        "JournalEvent.enrolled": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "enrolled";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            edition: components["schemas"]["JournalEvent.edition"];
        };
        /**
         * TakeAssessed
         * @description A take was assessed. It counts for the rung it was played to, once.
         */
        "JournalEvent.takeAssessed": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "take assessed";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            edition: components["schemas"]["JournalEvent.edition"];
            drill: components["schemas"]["JournalEvent.drill"];
            rung: components["schemas"]["JournalEvent.rung"];
            take: components["schemas"]["JournalEvent.take"];
            /**
             * @description Inside the tolerance, outside it, or not decidable: an unclear take changes nothing.
             * @enum {unknown}
             */
            verdict: "within" | "beyond" | "unclear";
            /**
             * @description Name of the mix played to.
             * @example alone
             */
            mix?: string;
            /**
             * @description Probability that the true values lie inside the tolerance.
             * @example 0.97
             */
            probability?: number;
            measured?: components["schemas"]["JournalEvent.measured"];
            /**
             * @description What each silence of the take showed, in order; their length is in the settings of the rung, and in `lengths` when they grow. Left out by takes without silences, and by versions of leeway that kept the largest only.
             * @example [
             *       [
             *         -38.4,
             *         9.1,
             *         -1.6,
             *         -41
             *       ],
             *       [
             *         null,
             *         null,
             *         null,
             *         null
             *       ]
             *     ]
             */
            silences?: components["schemas"]["JournalEvent.silence"][];
            /**
             * @description The length of each silence of the take, in order; only when they grow inside the take.
             * @example [
             *       "1/2 bar",
             *       "1/2 bar",
             *       "1 bar",
             *       "1 bar"
             *     ]
             */
            lengths?: string[];
            leftOut?: components["schemas"]["JournalEvent.leftOut"];
            /**
             * @description Codes of the finding's reasons, each once: why a take is unclear. Left out when there are none.
             * @example [
             *       "TWO_PAIRINGS"
             *     ]
             */
            reasons?: string[];
            /**
             * @description Fingerprint of the whole finding (FNV-1a, 64 bits, of its canonical JSON), so that a finding kept elsewhere can be recognised.
             * @example 85944171f73967e8
             */
            finding?: string;
        };
        /**
         * NotesLeftOut
         * @description Landings that were left out, and landings that were asked for; then the same of the other notes. Absent where no landing is asked for, and in events of earlier versions.
         * @example [
         *       1,
         *       4,
         *       2,
         *       60
         *     ]
         */
        "JournalEvent.leftOut": [
            number,
            number,
            number,
            number
        ];
        /**
         * Advanced
         * @description The gate of a rung was met: the student goes on to the next rung of the drill.
         */
        "JournalEvent.advanced": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "advanced";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            drill: components["schemas"]["JournalEvent.drill"];
            /** @description The rung that was left. */
            from: components["schemas"]["JournalEvent.rung"];
            /** @description The next rung. */
            to: components["schemas"]["JournalEvent.rung"];
            gate: components["schemas"]["JournalEvent.gate"];
            evidence: components["schemas"]["JournalEvent.evidence"];
            against: components["schemas"]["JournalEvent.against"];
            credit?: components["schemas"]["JournalEvent.credit"];
        };
        /**
         * GoneBack
         * @description Too many takes in a row were beyond tolerance: the student goes back to an easier rung of the drill and shows the gate anew there.
         */
        "JournalEvent.goneBack": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "gone back";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            drill: components["schemas"]["JournalEvent.drill"];
            /** @description The rung that was too hard. */
            from: components["schemas"]["JournalEvent.rung"];
            /** @description The easier rung. */
            to: components["schemas"]["JournalEvent.rung"];
            /**
             * @description Takes in a row beyond tolerance after which a rung is made easier, as the edition in force said.
             * @example 3
             */
            after: number;
            evidence: components["schemas"]["JournalEvent.evidence"];
            /** @description Rungs between the two whose gate has to be met anew although it was met before. */
            lapsed: components["schemas"]["JournalEvent.rung"][];
        };
        /**
         * DrillCompleted
         * @description The gate of a drill's last rung was met.
         */
        "JournalEvent.drillCompleted": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "drill completed";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            drill: components["schemas"]["JournalEvent.drill"];
            /** @description The last rung of the drill. */
            from: components["schemas"]["JournalEvent.rung"];
            gate: components["schemas"]["JournalEvent.gate"];
            evidence: components["schemas"]["JournalEvent.evidence"];
            against: components["schemas"]["JournalEvent.against"];
            credit?: components["schemas"]["JournalEvent.credit"];
        };
        /**
         * DrillOpened
         * @description Everything a drill needs is complete: the student may begin it.
         */
        "JournalEvent.drillOpened": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "drill opened";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            drill: components["schemas"]["JournalEvent.drill"];
            /** @description The first rung of the drill. */
            to: components["schemas"]["JournalEvent.rung"];
            /**
             * @description The drills it needs, all complete; empty when it needs none.
             * @example [
             *       "steady"
             *     ]
             */
            needs: components["schemas"]["JournalEvent.drill"][];
        };
        /**
         * EditionChanged
         * @description The course came out in another edition. Credit stays with every rung whose settings are in the new edition; what is not there is listed, and comes back when a later edition has it again.
         */
        "JournalEvent.editionChanged": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "edition changed";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            /** @description The edition until now. */
            from: components["schemas"]["JournalEvent.edition"];
            /** @description The edition from now on. */
            to: components["schemas"]["JournalEvent.edition"];
            /** @description Drills that have another name in the new edition; all that was shown in them goes with the name. */
            renamed: {
                /** @description The name until now. */
                from: components["schemas"]["JournalEvent.drill"];
                /** @description The name from now on. */
                to: components["schemas"]["JournalEvent.drill"];
            }[];
            /** @description Drills in which the student's rung changes, as the new edition does not have it: the rung until now, and the nearest lower rung that is there; or back to the rung an earlier edition took the student from, which is there again. */
            moved: {
                drill: components["schemas"]["JournalEvent.drill"];
                /** @description The rung until now. */
                from: components["schemas"]["JournalEvent.rung"];
                /** @description The rung from now on. */
                to: components["schemas"]["JournalEvent.rung"];
            }[];
            /** @description Rungs with credit that are not in the new edition. */
            lost: {
                drill: components["schemas"]["JournalEvent.drill"];
                rung: components["schemas"]["JournalEvent.rung"];
            }[];
            /** @description Drills with events in the journal that the new edition does not have. */
            withdrawn: components["schemas"]["JournalEvent.drill"][];
            /** @description Completed drills that have further rungs in the new edition; what needs them stays open. */
            reopened: components["schemas"]["JournalEvent.drill"][];
            /** @description Present when there are such drills: completed once and reopened by an edition, and without those further rungs in the new one. */
            completeAgain?: components["schemas"]["JournalEvent.drill"][];
        };
        /**
         * SetByTeacher
         * @description A teacher put the student on a rung, opening the drill if it was not open; or a placement test did, which "by" then says. It is never evidence: the gate of that rung is shown anew, and no drill that needs this one opens by it.
         */
        "JournalEvent.setByTeacher": {
            version: components["schemas"]["JournalEvent.version"];
            /**
             * @description What happened.
             * @constant
             */
            kind: "set by teacher";
            id: components["schemas"]["JournalEvent.id"];
            turn: components["schemas"]["JournalEvent.turn"];
            at: components["schemas"]["JournalEvent.at"];
            student: components["schemas"]["JournalEvent.student"];
            curriculum: components["schemas"]["JournalEvent.curriculum"];
            drill: components["schemas"]["JournalEvent.drill"];
            /** @description The rung the student is put on. */
            to: components["schemas"]["JournalEvent.rung"];
            /**
             * @description Who decided: a pseudonym is enough.
             * @example harbour-brass
             */
            teacher?: string;
            /**
             * @description The teacher's reason, or what the placement test found.
             * @example Played it in the lesson, twice.
             */
            because?: string;
            /**
             * @description Present when a placement test decided and no teacher was asked; absent when a teacher did.
             * @constant
             */
            by?: "placement test";
        };
        /**
         * Finding
         * @description What a take showed. Positive is late, slower, dragging; negative is early, faster, rushing. A value that could not be measured says why.
         */
        Finding: {
            /**
             * @description Version of this format; a reader refuses versions it does not know.
             * @constant
             */
            version: 1;
            /**
             * @description Name of the take.
             * @example 2026-03-02-1
             */
            take?: string;
            /**
             * @description Name of the drill.
             * @example half-bar
             */
            drill?: string;
            /**
             * @description Settings of the rung in canonical form.
             * @example dropout=1/2 bar,tempo=96
             */
            rung?: string;
            /**
             * @description Name of the mix played to.
             * @example alone
             */
            mix?: string;
            verdict: components["schemas"]["Finding.verdict"];
            probability: components["schemas"]["Finding.probability"];
            /** @description Why the verdict is `unclear`, or what else a reader must know; empty when there is nothing to add. */
            reasons: components["schemas"]["Finding.reason"][];
            /** @description Which onset was taken for which expected note: pairs of indices [expected, onset], from 0, in order of time. */
            pairs: [
                number,
                number
            ][];
            /** @description Indices of expected notes that were not played. */
            missed: number[];
            /** @description Indices of onsets that were not expected (those in open bars are not counted). */
            added: number[];
            /**
             * @description The player's constant offset while accompanied: habitual lead and latency together (latency taken off when it was given), in milliseconds.
             * @example -31.2
             */
            offsetMs: number | components["schemas"]["Finding.unmeasured"];
            /** @description One entry per dropout, in order. */
            dropouts: components["schemas"]["Finding.dropoutFinding"][];
            /** @description One entry per stretch of open bars, in order. */
            openBars: components["schemas"]["Finding.openFinding"][];
            steadiness: components["schemas"]["Finding.steadiness"];
            /** @description What was noticed when the take was read or listened to, such as a recording that is clipped; left out when nothing was. */
            advice?: components["schemas"]["Take.advice"][];
            /**
             * @description The finding in one plain sentence.
             * @example You rushed: 38 ms early after one bar, about 1.6 % fast.
             */
            sentence: string;
            /** @description The same sentence before it is worded, for another language; left out in findings of before there were languages. */
            message?: components["schemas"]["Finding.message"];
        };
        /**
         * Verdict
         * @description Inside the tolerance, outside it, or not decidable from this take.
         * @enum {unknown}
         */
        "Finding.verdict": "within" | "beyond" | "unclear";
        /**
         * Probability
         * @description Probability that the true values lie inside the tolerance.
         * @example 0.97
         */
        "Finding.probability": number | components["schemas"]["Finding.unmeasured"];
        /**
         * Unmeasured
         * @description Could not be measured, and why.
         */
        "Finding.unmeasured": {
            /**
             * @description The reason.
             * @example no note was played in this silence
             */
            unmeasured: string;
            /** @description The same reason before it is worded. */
            message?: components["schemas"]["Finding.phrase"];
        };
        /**
         * Message
         * @description A sentence before it is worded: which one, and what it speaks of.
         */
        "Finding.message": {
            key: components["schemas"]["Finding.messageKey"];
            /** @description What the sentence speaks of, by name: numbers, texts such as names, phrases, or lists of texts and phrases. */
            parameters: {
                [key: string]: number | string | components["schemas"]["Finding.phrase"] | (string | components["schemas"]["Finding.phrase"])[];
            };
        };
        /**
         * Phrase
         * @description A part of a sentence before it is worded.
         */
        "Finding.phrase": {
            key: components["schemas"]["Finding.messageKey"];
            /** @description What it speaks of, by name: numbers and texts. */
            parameters: {
                [key: string]: number | string;
            };
        };
        /**
         * @description Name of the message in the catalogues of `leeway/words`.
         * @example take.went-off
         */
        "Finding.messageKey": string;
        /**
         * Measure
         * @description A number, at most a thousand million either way, or the reason why there is none.
         */
        "Finding.measure": number | components["schemas"]["Finding.unmeasured"];
        /**
         * Size
         * @description A number from 0 to a thousand million, or the reason why there is none.
         */
        "Finding.size": number | components["schemas"]["Finding.unmeasured"];
        /**
         * Share
         * @description A number from 0 to 1, or the reason why there is none.
         */
        "Finding.share": number | components["schemas"]["Finding.unmeasured"];
        /**
         * Reason
         * @description A reason in the finding: a stable code and a sentence.
         */
        "Finding.reason": {
            /**
             * @description Stable name of the cause.
             * @example TWO_PAIRINGS
             */
            code: string;
            /**
             * @description The reason as a sentence.
             * @example The notes fit two places equally well: as written, or a sixteenth later.
             */
            says: string;
            /** @description The same reason before it is worded. */
            message?: components["schemas"]["Finding.message"];
            /**
             * @description Index of the dropout it is about.
             * @example 1
             */
            dropout?: number;
        };
        /**
         * DropoutFinding
         * @description What one dropout showed.
         */
        "Finding.dropoutFinding": {
            /**
             * @description Start of the silence, seconds from bar 1.
             * @example 8.75
             */
            from: number;
            /**
             * @description End of the silence, seconds from bar 1.
             * @example 10
             */
            to: number;
            /**
             * @description Change of the player's time from the start of the silence to its end, milliseconds.
             * @example -38.4
             */
            driftMs: components["schemas"]["Finding.measure"];
            /**
             * @description The same as per cent of tempo: positive is slower.
             * @example -1.6
             */
            driftPercent: components["schemas"]["Finding.measure"];
            /**
             * @description Standard error of the drift, milliseconds.
             * @example 9.1
             */
            standardErrorMs: components["schemas"]["Finding.size"];
            /**
             * @description The note expected where the accompaniment returns: where it fell, the constant offset taken off, in milliseconds; or that it was left out; or why it is not known. null when there is no landing: the accompaniment does not return, or no note is expected soon enough.
             * @example {
             *       "ms": -41,
             *       "standardErrorMs": 3.2
             *     }
             * @example {
             *       "leftOut": true
             *     }
             * @example null
             */
            landing: components["schemas"]["Finding.landing"] | components["schemas"]["Finding.leftOut"] | components["schemas"]["Finding.unmeasured"] | null;
            /**
             * @description A slip in this silence or at its landing: the player came in elsewhere in the music; null when there is none, or none that is likelier than not.
             * @example {
             *       "beats": 0.5,
             *       "from": 25.263,
             *       "takenBack": 27.4
             *     }
             * @example null
             */
            slip?: components["schemas"]["Finding.slip"] | null;
            /**
             * @description How much of the silence was played.
             * @example {
             *       "notes": 3,
             *       "of": 4,
             *       "asked": 2
             *     }
             */
            played?: components["schemas"]["Finding.played"];
            /**
             * @description Beats after landing until the player stays inside the landing tolerance; null when the accompaniment does not return.
             * @example 2
             */
            recoveryBeats: number | null | components["schemas"]["Finding.unmeasured"];
            verdict: components["schemas"]["Finding.verdict"];
            probability: components["schemas"]["Finding.probability"];
        };
        /**
         * Landing
         * @description Where the landing note fell.
         */
        "Finding.landing": {
            /**
             * @description Milliseconds, positive late.
             * @example -41
             */
            ms: number;
            /**
             * @description Its standard error, milliseconds: that of the constant offset.
             * @example 3.2
             */
            standardErrorMs: number;
        };
        /**
         * LeftOut
         * @description The landing note was left out.
         */
        "Finding.leftOut": {
            /**
             * @description Always true.
             * @example true
             * @constant
             */
            leftOut: true;
        };
        /**
         * Played
         * @description Notes of a silence, from its start up to the landing, which is not among them.
         */
        "Finding.played": {
            /**
             * @description Notes that were played.
             * @example 3
             */
            notes: number;
            /**
             * @description Notes that are expected.
             * @example 4
             */
            of: number;
            /**
             * @description With fewer played the silence is not within: the share the tolerance asks for, rounded up.
             * @example 2
             */
            asked: number;
        };
        /**
         * Slip
         * @description How far the player came to stand from the place in the music where the accompaniment is, and when.
         */
        "Finding.slip": {
            /**
             * @description Beats, positive late: the player waited; negative: he skipped.
             * @example 0.5
             */
            beats: number;
            /**
             * @description The first note that was displaced, by its place in the score, seconds from bar 1.
             * @example 25.263
             */
            from: number;
            /**
             * @description The first note in place again before the next silence, seconds from bar 1; null when the player stayed displaced.
             * @example 27.4
             */
            takenBack: number | null;
        };
        /**
         * OpenFinding
         * @description What one stretch of open bars showed.
         */
        "Finding.openFinding": {
            /** @description Start, seconds from bar 1. */
            from: number;
            /** @description End, seconds from bar 1. */
            to: number;
            /** @description Notes played. */
            notes: number;
            /** @description Change of the player's pulse over the stretch, milliseconds. */
            driftMs: components["schemas"]["Finding.measure"];
            /** @description The same as per cent of tempo. */
            driftPercent: components["schemas"]["Finding.measure"];
            /** @description Standard error of the drift, milliseconds. */
            standardErrorMs: components["schemas"]["Finding.size"];
            /** @description Probability that onsets placed at random would lie as close to the subdivision as these (Rayleigh test). */
            lockP?: components["schemas"]["Finding.share"];
            /** @description Share of the notes that belong to the stated scale, 0 to 1. */
            inScale: components["schemas"]["Finding.share"];
        };
        /**
         * Steadiness
         * @description Steadiness of the player, milliseconds.
         */
        "Finding.steadiness": {
            /** @description Standard deviation around the player's own offset while accompanied. */
            accompaniedMs: components["schemas"]["Finding.size"];
            /** @description Standard deviation around the player's own drifting time in the silences. */
            aloneMs: components["schemas"]["Finding.size"];
            /** @description Timekeeper part of the steadiness, per square root of a beat. */
            clockMs: components["schemas"]["Finding.size"];
            /** @description Motor part of the steadiness, per note. */
            motorMs: components["schemas"]["Finding.size"];
            verdict: components["schemas"]["Finding.verdict"];
            probability: components["schemas"]["Finding.probability"];
        };
        /**
         * Report
         * @description Where the students of a store are, who is stuck and on what, and how they drift in silences of each length over weeks. Worked out from journals alone; positive is late, slower, dragging; negative is early, faster, rushing.
         */
        Report: {
            /**
             * @description Version of this format; a reader refuses versions it does not know.
             * @constant
             */
            version: 2;
            /** @description The moment it is of. */
            at: components["schemas"]["Report.moment"];
            /**
             * @description First day whose takes are counted; left out when all are.
             * @example 2026-03-02
             */
            since?: string;
            /** @description Every student once, in the order of their names. */
            students: components["schemas"]["Report.student"][];
            /** @description Where all of them are, course by course. */
            courses: components["schemas"]["Report.courseCount"][];
            /** @description Drift in silences, shortest first, over all these students. */
            drift: components["schemas"]["Report.lengthDrift"][];
        };
        /**
         * @description Date and time, as the event says it (RFC 3339).
         * @example 2026-03-02T17:30:00Z
         */
        "Report.moment": string;
        /**
         * ReportTally
         * @description Takes by verdict.
         */
        "Report.tally": {
            /** @description Takes within tolerance. */
            within: number;
            /** @description Takes beyond tolerance. */
            beyond: number;
            /** @description Takes that could not be judged. */
            unclear: number;
        };
        /**
         * DriftQuartiles
         * @description Median and quartiles (Hyndman and Fan 1996, definition 7), signed: positive is late, slower, dragging; negative is early, faster, rushing.
         */
        "Report.quartiles": {
            /** @description Half of the values lie on either side. */
            median: number;
            /** @description First quartile: a quarter of the values lie below. */
            low: number;
            /** @description Third quartile: a quarter of the values lie above. */
            high: number;
        };
        /**
         * WeekDrift
         * @description Drift in the silences of one length, in one week.
         */
        "Report.week": {
            /**
             * @description Monday of the week, by the calendar where the takes were played.
             * @example 2026-03-02
             */
            week: string;
            /** @description Takes with such silences. */
            takes: number;
            /** @description Silences whose drift was measured. */
            measured: number;
            /** @description Silences whose drift is not counted: nothing was played in them, or the take could be read in several ways. */
            unmeasured: number;
            /** @description Drift in whole milliseconds; left out when none was measured. */
            driftMs?: components["schemas"]["Report.quartiles"];
            /** @description Drift as per cent of tempo, in tenths; left out when none was measured. */
            driftPercent?: components["schemas"]["Report.quartiles"];
            /** @description The landings after these silences; left out when none was measured. */
            landings?: components["schemas"]["Report.landings"];
        };
        /**
         * LandingFigures
         * @description Landings after silences of one length. Positive means late.
         */
        "Report.landings": {
            /** @description Landings that were measured. */
            measured: number;
            /** @description Offset of the student's note from the downbeat on which the accompaniment returned, whole milliseconds. */
            ms: components["schemas"]["Report.quartiles"];
        };
        /**
         * LengthDrift
         * @description Drift in the silences of one length.
         */
        "Report.lengthDrift": {
            /**
             * @description Length of the silences, as the rung says it; left out when a journal does not say.
             * @example 1/2 bar
             */
            length?: string;
            /**
             * @description What is counted: each silence, or, of takes kept before journals had each of them, the largest drift of the take.
             * @enum {unknown}
             */
            told: "each silence" | "largest of a take";
            /** @description Takes with such silences. */
            takes: number;
            /** @description Silences whose drift was measured. */
            measured: number;
            /** @description Silences whose drift is not counted: nothing was played in them, or the take could be read in several ways. */
            unmeasured: number;
            /** @description Drift in whole milliseconds; left out when none was measured. */
            driftMs?: components["schemas"]["Report.quartiles"];
            /** @description Drift as per cent of tempo, in tenths; left out when none was measured. */
            driftPercent?: components["schemas"]["Report.quartiles"];
            /** @description The landings after these silences; left out when none was measured. */
            landings?: components["schemas"]["Report.landings"];
            /** @description The weeks with such takes, in order. */
            weeks: components["schemas"]["Report.week"][];
        };
        /**
         * Sticking
         * @description What takes that were not clean failed on; each of them counts once.
         */
        "Report.sticking": {
            /**
             * @description The figure furthest outside its tolerance; `slip`: came in beats or bars off; `unclear`: could not be judged; `not kept`: the journal does not have the figures.
             * @enum {unknown}
             */
            on: "drift" | "landing" | "steadiness" | "slip" | "unclear" | "not kept";
            /** @description Takes that failed on it. */
            takes: number;
            /**
             * @description Length of the silences, as the rung says it.
             * @example 1 bar
             */
            length?: string;
            /**
             * @description The side on which the figure lies: early is rushing, late is dragging; `both` when neither has three in four.
             * @enum {unknown}
             */
            side?: "early" | "late" | "both";
            /** @description Median of the figure over these takes, whole milliseconds. */
            medianMs?: number;
            /** @description Of landings: the median drift in the silences before them, whole milliseconds, which tells a player who drifted from one who missed the downbeat. */
            driftMs?: number;
            /**
             * @description Why the takes are unclear: a code of the finding's reasons, TOO_CLOSE (to the tolerance to tell) or NOT_MEASURED (too little was played).
             * @example TWO_PAIRINGS
             */
            reason?: string;
        };
        /**
         * Stall
         * @description A student who is stuck: so many takes without getting on that somebody ready would nearly always have got on.
         */
        "Report.stall": {
            /** @description When the student last came to a rung of this drill for the first time. */
            since: components["schemas"]["Report.moment"];
            /** @description Takes at the student's rung since then. */
            takes: components["schemas"]["Report.tally"];
            /** @description What they failed on, most takes first. */
            on: components["schemas"]["Report.sticking"][];
        };
        /**
         * StudentPlace
         * @description An open drill and where the student is in it.
         */
        "Report.place": {
            /**
             * @description Name of the drill.
             * @example half-bar
             */
            drill: string;
            /**
             * @description Its title.
             * @example Half a bar of silence
             */
            title?: string;
            /**
             * @description Settings of the student's rung.
             * @example dropout=1/2 bar,tempo=84
             */
            rung: string;
            /** @description Number of the rung, counted from 1; left out when the course is not at hand or has no such rung. */
            number?: number;
            /** @description Rungs of the drill; left out when the course is not at hand. */
            rungs?: number;
            /** @description When the student came to this rung. */
            since: components["schemas"]["Report.moment"];
            /** @description Takes here since then. */
            takes: components["schemas"]["Report.tally"];
            /** @description Takes without getting on after which a student counts as stuck here, or why that cannot be said. */
            stuckAfter: number | {
                /** @description The reason. */
                unmeasured: string;
                /** @description The same reason before it is worded. */
                message?: {
                    /**
                     * @description Name of the message in the catalogues of `leeway/words`.
                     * @example report.no-course
                     */
                    key: string;
                    /** @description What it speaks of, by name: numbers and texts. */
                    parameters: {
                        [key: string]: number | string;
                    };
                };
            };
            /** @description Present when the student is stuck here. */
            stall?: components["schemas"]["Report.stall"];
        };
        /**
         * CourseReport
         * @description A student in one course.
         */
        "Report.courseReport": {
            /**
             * @description Name of the course.
             * @example quayside-first-course
             */
            curriculum: string;
            /**
             * @description Edition in force; left out when the enrolment has not arrived.
             * @example 1.0.0
             */
            edition?: string;
            /** @description When the student was enrolled; left out when the enrolment has not arrived. */
            enrolled?: components["schemas"]["Report.moment"];
            /** @description When the last take was assessed; left out when there is none. */
            lastTake?: components["schemas"]["Report.moment"];
            /** @description Whether no take has come for three weeks although a drill is open. */
            quiet: boolean;
            /** @description Takes in the time reported. */
            takes: components["schemas"]["Report.tally"];
            /** @description Names of the drills that are complete. */
            complete: string[];
            /** @description The open drills of the edition in force. */
            places: components["schemas"]["Report.place"][];
        };
        /**
         * StudentReport
         * @description One student.
         */
        "Report.student": {
            /**
             * @description Who: a pseudonym is enough.
             * @example tern
             */
            student: string;
            /** @description The student's courses, in the order of their names. */
            courses: components["schemas"]["Report.courseReport"][];
        };
        /**
         * RungCount
         * @description Students on one rung.
         */
        "Report.rungCount": {
            /**
             * @description Settings of the rung.
             * @example dropout=1/2 bar,tempo=84
             */
            rung: string;
            /** @description Number of the rung, counted from 1; left out when it is not known. */
            number?: number;
            /** @description Students there. */
            students: number;
            /** @description Those of them who are stuck. */
            stuck: number;
        };
        /**
         * DrillCount
         * @description Where students are in one drill.
         */
        "Report.drillCount": {
            /**
             * @description Name of the drill.
             * @example half-bar
             */
            drill: string;
            /**
             * @description Its title.
             * @example Half a bar of silence
             */
            title?: string;
            /** @description Rungs of the drill; left out when the course is not at hand. */
            rungs?: number;
            /** @description Students who completed it. */
            complete: number;
            /** @description The rungs with students, in the order of climbing. */
            places: components["schemas"]["Report.rungCount"][];
        };
        /**
         * CourseCount
         * @description Where students are in one course.
         */
        "Report.courseCount": {
            /**
             * @description Name of the course.
             * @example quayside-first-course
             */
            curriculum: string;
            /**
             * @description Its title.
             * @example Quayside first course
             */
            title?: string;
            /** @description Students in it. */
            students: number;
            /** @description Students who are stuck somewhere. */
            stuck: number;
            /** @description Students without a take for three weeks although a drill is open. */
            quiet: number;
            /** @description Takes in the time reported. */
            takes: components["schemas"]["Report.tally"];
            /** @description The drills that are open or complete for anybody, in the order of the course. */
            drills: components["schemas"]["Report.drillCount"][];
        };
        /**
         * Score
         * @description What one rung of a drill sounds like in one mix, and what is expected of the student. Positions are exact fractions of a whole note counted from the downbeat of bar 1; times are seconds from the same downbeat, so that a pick-up is negative.
         */
        Score: {
            /**
             * @description Version of this format; a reader refuses versions it does not know.
             * @constant
             */
            version: 1;
            /**
             * @description Name of the course the drill is from.
             * @example quayside-first-course
             */
            curriculum?: string;
            /**
             * @description Edition of that course (semantic version).
             * @example 1.0.0
             */
            edition?: string;
            /**
             * @description Name of the drill.
             * @example half-bar
             */
            drill: string;
            /**
             * @description The settings of the rung in canonical form; two rungs are the same when this text is the same.
             * @example dropout=1/2 bar,tempo=96,variant=plain
             */
            rung: string;
            /**
             * @description Name of the mix: who plays, who drops, who is off.
             * @example alone
             */
            mix: string;
            /**
             * @description The draw that chose the places of the silences, when they lie at random places and one was named.
             * @example 2026-03-02-1
             */
            draw?: string;
            /**
             * @description Length of the first phrase, in seconds.
             * @example 10
             */
            phraseSeconds?: number;
            /**
             * @description Seconds from the downbeat of bar 1 to the end of the take.
             * @example 42.5
             */
            duration: number;
            /**
             * @description Seconds of count-in before the downbeat of bar 1; 0 when there is none.
             * @example 2.5
             */
            countIn: number;
            /**
             * @description Percussion voice that counts in; absent for the usual click.
             * @example sticks
             */
            countInVoice?: string;
            /**
             * @description Length of one beat in seconds; where the tempo rises inside the take, at its beginning.
             * @example 0.625
             */
            beat: number;
            /**
             * @description The note value of one beat as a fraction of a whole note.
             * @example 1/4
             * @example 3/8
             */
            beatUnit?: string;
            /**
             * @description Beats per minute; where the tempo rises inside the take, at its beginning.
             * @example 96
             */
            tempo?: number;
            /** @description The tempi of a take whose tempo rises (or falls) from phrase to phrase, in order; absent where one tempo holds throughout. */
            tempi?: components["schemas"]["Score.tempo"][];
            /**
             * @description Swing as ratio and subdivision; absent when the notes are straight.
             * @example 2:1 1/8
             */
            swing?: string;
            /**
             * @description Concert key and mode.
             * @example D dorian
             */
            key?: string;
            /**
             * @description Frequency of A4 in hertz; absent at the usual 440.
             * @example 442
             */
            tuningHz?: number;
            /** @description Every bar of the take, in order. */
            bars: components["schemas"]["Score.bar"][];
            /** @description The onsets expected of the student, in order of time. Notes of one part that start together are one onset. */
            expected: components["schemas"]["Score.expectedOnset"][];
            /** @description The stretches in which the parts that drop fall silent, in order of time. */
            dropouts: components["schemas"]["Score.dropout"][];
            /** @description The stretches in which the student hears something to play to (count-in included, hence negative times). Elsewhere the student's time runs free. */
            audible: components["schemas"]["Score.stretch"][];
            /** @description Bars left to the player to improvise in; nothing is expected there. */
            open: components["schemas"]["Score.openBars"][];
            /** @description Every part: what it does in this mix and the notes it sounds. */
            parts: components["schemas"]["Score.scorePart"][];
            tolerance: components["schemas"]["Score.tolerance"];
        };
        /**
         * ScoreTempo
         * @description A tempo of the take, and where it begins.
         */
        "Score.tempo": {
            position: components["schemas"]["Score.position"];
            at: components["schemas"]["Score.seconds"];
            /**
             * @description Beats per minute.
             * @example 100
             */
            tempo: number;
            /**
             * @description Length of one beat in seconds.
             * @example 0.6
             */
            beat: number;
        };
        /**
         * @description Seconds from the downbeat of bar 1.
         * @example 10.25
         */
        "Score.seconds": number;
        /**
         * @description Exact position in whole notes from the downbeat of bar 1.
         * @example 5/16
         * @example 4
         * @example -1/8
         */
        "Score.position": string;
        /**
         * @description How much later than the swing has it a note of a tuplet begins or ends to sound, in whole notes; negative is earlier, absent is nothing.
         * @example -1/36
         */
        "Score.late": string;
        /**
         * Stretch
         * @description A stretch of time, `from` included, `to` excluded.
         */
        "Score.stretch": {
            from: components["schemas"]["Score.seconds"];
            to: components["schemas"]["Score.seconds"];
        };
        /**
         * ScoreBar
         * @description One bar of the take.
         */
        "Score.bar": {
            /**
             * @description Number of the bar in the take.
             * @example 5
             */
            bar: number;
            position: components["schemas"]["Score.position"];
            at: components["schemas"]["Score.seconds"];
            /**
             * @description Meter of the bar.
             * @example 4/4
             * @example 2+2+3/8
             */
            meter: string;
            /**
             * @description Which phrase of the pattern the bar belongs to; the outro after the last phrase counts as one more.
             * @example 2
             */
            phrase: number;
            /**
             * @description Chord symbols of the bar, as written.
             * @example Dm7 G7
             */
            chord?: string;
        };
        /**
         * ExpectedOnset
         * @description One onset expected of the student.
         */
        "Score.expectedOnset": {
            position: components["schemas"]["Score.position"];
            /**
             * @description Seconds from the downbeat of bar 1, swing included.
             * @example 0.78125
             */
            at: number;
            late?: components["schemas"]["Score.late"];
            /**
             * @description Concert pitch in scientific notation; the highest when several sound together.
             * @example D4
             * @example Bb3
             */
            pitch?: string;
            /**
             * @description Whether the note carries an accent.
             * @default false
             */
            accent: boolean;
            /**
             * @description The student's part.
             * @example lead
             */
            part: string;
            /**
             * @description Number of the bar in the take; 0 for a pick-up before bar 1.
             * @example 3
             */
            bar: number;
        };
        /**
         * Dropout
         * @description One stretch in which parts fall silent.
         */
        "Score.dropout": {
            from: components["schemas"]["Score.seconds"];
            to: components["schemas"]["Score.seconds"];
            fromPosition?: components["schemas"]["Score.position"];
            toPosition?: components["schemas"]["Score.position"];
            /**
             * @description Numbers of the bars it touches.
             * @example [
             *       4
             *     ]
             */
            bars?: number[];
            /**
             * @description Parts that fall silent.
             * @example [
             *       "bass",
             *       "kit"
             *     ]
             */
            parts: string[];
            /** @description Whether nothing at all is left to play to. */
            silent: boolean;
            /**
             * @description When the accompaniment returns, in seconds from bar 1; null when it does not return before the take ends.
             * @example 10
             * @example null
             */
            landing: number | null;
        };
        /**
         * OpenStretch
         * @description Bars left open.
         */
        "Score.openBars": {
            from: components["schemas"]["Score.seconds"];
            to: components["schemas"]["Score.seconds"];
            /**
             * @description Numbers of the open bars in the take.
             * @example [
             *       4
             *     ]
             */
            bars: number[];
            /**
             * @description The scale to improvise in, concert pitch.
             * @example D dorian
             */
            scale: string;
            /**
             * @description Its notes as semitones above C.
             * @example [
             *       2,
             *       4,
             *       5,
             *       7,
             *       9,
             *       11,
             *       0
             *     ]
             */
            pitchClasses: number[];
            /**
             * @description When each subdivision falls, in seconds from bar 1, swing included; without it the subdivisions are even.
             * @example [
             *       7.5,
             *       7.65625,
             *       7.8125
             *     ]
             */
            grid?: number[];
            /**
             * @description Length in seconds of the smallest subdivision the player is expected to use.
             * @example 0.15625
             */
            subdivision: number;
        };
        /**
         * ScorePart
         * @description One part of the score.
         */
        "Score.scorePart": {
            /**
             * @description Name of the part.
             * @example kit
             */
            name: string;
            /**
             * @description Instrument it is written for.
             * @example double bass
             */
            instrument?: string;
            /**
             * @description Sounds throughout, falls silent in the dropouts, or never sounds in this mix.
             * @enum {unknown}
             */
            does: "plays" | "drops" | "off";
            /** @description Whether this is the part the student plays. */
            student: boolean;
            /**
             * @description There when notes of this part may ring on into the dropouts.
             * @constant
             */
            rings?: true;
            /** @description The notes that sound, in order; a part that is off has none. Where recordings of the part sound they are what is played there. */
            notes: components["schemas"]["Score.scoreNote"][];
            /** @description Where recordings of the part sound in place of its notes, in order; empty for a part that is off, and absent for one that was not recorded. */
            recorded?: components["schemas"]["Score.recordedStretch"][];
        };
        /**
         * RecordedStretch
         * @description A stretch in which a recording of a part is heard, `from` included, `to` excluded.
         */
        "Score.recordedStretch": {
            from: components["schemas"]["Score.seconds"];
            to: components["schemas"]["Score.seconds"];
            /**
             * @description The sound file, as the course names it.
             * @example sound/kit.wav
             */
            file: string;
            /**
             * @description SHA-256 of its bytes, hexadecimal: another file under this name is another recording.
             * @example e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855
             */
            sha256: string;
            /**
             * @description Seconds from the beginning of the file to what is heard at `from`; negative where the file begins later.
             * @example 2.135
             */
            start: number;
            /**
             * @description Seconds from the beginning of the file to the first of the bars that go round.
             * @example 2.135
             */
            takenFrom: number;
            /**
             * @description Seconds from the beginning of the file to the end of the last of them.
             * @example 12.135
             */
            takenTo: number;
            /**
             * @description Seconds of the recording that are heard in a second: 1 at the tempo it was played at, above 1 where it is made faster.
             * @example 1
             * @example 0.875
             */
            speed: number;
            /**
             * @description Semitones by which it is moved up to be in the key of the rung.
             * @default 0
             * @example 2
             */
            semitones: number;
        };
        /**
         * ScoreNote
         * @description A sounding note.
         */
        "Score.scoreNote": {
            position: components["schemas"]["Score.position"];
            /**
             * @description Exact length in whole notes.
             * @example 1/8
             */
            length: string;
            at: components["schemas"]["Score.seconds"];
            /**
             * @description Length in seconds, swing included; cut at the start of a silence.
             * @example 0.3125
             */
            seconds: number;
            late?: components["schemas"]["Score.late"];
            endLate?: components["schemas"]["Score.late"];
            /**
             * @description Concert pitch.
             * @example D2
             */
            pitch?: string;
            /**
             * @description Percussion voice.
             * @example snare
             */
            voice?: string;
            /**
             * @description Whether it carries an accent.
             * @default false
             */
            accent: boolean;
            /**
             * @description Whether it is played shorter than written; `seconds` already says how long it sounds.
             * @default false
             */
            short: boolean;
            /**
             * @description Whether it is held for all of its length.
             * @default false
             */
            tenuto: boolean;
            /**
             * @description Whether it is slurred to the note of its part that begins where it ends: that one has another pitch, and begins without being attacked anew.
             * @default false
             */
            slurred: boolean;
            /**
             * @description Whether it slides up to its pitch at its beginning.
             * @default false
             */
            scoop: boolean;
            /**
             * @description Whether its pitch falls off at its end.
             * @default false
             */
            fall: boolean;
            /**
             * @description Whether it is a ghost note, hardly heard.
             * @default false
             */
            ghost: boolean;
            /**
             * @description The loudness in force, as written; a note without one is as loud as mf.
             * @enum {unknown}
             */
            loudness?: "pp" | "p" | "mp" | "mf" | "f" | "ff";
        };
        /**
         * ScoreTolerance
         * @description How far off still counts as in time. A limit that is absent is not judged.
         */
        "Score.tolerance": {
            /**
             * @description Largest drift in a dropout, per cent of tempo, either way.
             * @example 2.5
             */
            driftPercent?: number;
            /**
             * @description Largest drift in a dropout, milliseconds, either way.
             * @example 40
             */
            driftMs?: number;
            /**
             * @description Largest offset of the first note at landing, milliseconds, either way.
             * @example 40
             */
            landingMs?: number;
            /**
             * @description Largest steadiness (standard deviation) while accompanied, milliseconds.
             * @example 25
             */
            steadinessMs?: number;
            /**
             * @description Smallest share of the notes of each silence that must be played, rounded up to whole notes; a half when it is absent.
             * @example 0.75
             */
            playedShare?: number;
        };
        /**
         * Standing
         * @description Where a student is in a course, worked out from the journal. The same events give the same standing, byte for byte in canonical JSON (RFC 8785), in whatever order they arrived.
         */
        Standing: {
            /**
             * @description Version of this format; a reader refuses versions it does not know.
             * @constant
             */
            version: 2;
            /**
             * @description Whose standing this is: a pseudonym is enough.
             * @example tern
             */
            student: string;
            /**
             * @description Name of the course.
             * @example quayside-first-course
             */
            curriculum: string;
            /**
             * @description Edition of the course in force for this student.
             * @example 1.0.0
             */
            edition: string;
            /**
             * LatestEvent
             * @description The last event that had an effect, in the journal's order.
             */
            latest: {
                /**
                 * @description Its turn.
                 * @example 12
                 */
                turn: number;
                /**
                 * @description When it happened (RFC 3339).
                 * @example 2026-03-02T17:30:00Z
                 */
                at: string;
                /**
                 * @description Its id.
                 * @example take:2026-03-02-1
                 */
                id: string;
            };
            /**
             * @description Events that had an effect, each counted once.
             * @example 12
             */
            events: number;
            /** @description Every drill the journal mentions, in the order of its first event. */
            drills: components["schemas"]["Standing.drill"][];
        };
        /**
         * @description Settings of a rung in canonical form.
         * @example dropout=1/2 bar,key=D dorian,tempo=96,variant=plain
         */
        "Standing.rungText": string;
        /**
         * @description Name of a take.
         * @example 2026-03-02-1
         */
        "Standing.take": string;
        /**
         * DrillStanding
         * @description Where the student is in one drill.
         */
        "Standing.drill": {
            /**
             * @description Name of the drill.
             * @example half-bar
             */
            drill: string;
            /**
             * @description Not begun, being worked on, or finished: the gate of its last rung was met.
             * @enum {unknown}
             */
            state: "closed" | "open" | "complete";
            /**
             * @description Present when the edition in force does not have the drill; everything known of it is kept.
             * @constant
             */
            withdrawn?: true;
            /** @description The rung the student is on; absent while the drill is closed. */
            rung?: components["schemas"]["Standing.rungText"];
            /**
             * @description What brought the student to this rung; absent while the drill is closed.
             * @enum {unknown}
             */
            by?: "drill opened" | "advanced" | "gone back" | "edition changed" | "set by teacher" | "placement test";
            /**
             * TakenFrom
             * @description Where an edition took the student from: because it does not have that rung, or has further rungs after the last one. Present until something else moves the student; an edition that is as it was then puts the student back.
             */
            takenFrom?: {
                /** @description The rung the student was on. */
                rung: components["schemas"]["Standing.rungText"];
                /**
                 * @description The state the drill was in.
                 * @enum {unknown}
                 */
                state: "open" | "complete";
            };
            /**
             * Completion
             * @description Present once the drill was completed; drills that need it go by this, and it is kept through later editions.
             */
            completed?: {
                /**
                 * @description Id of the event.
                 * @example drill-completed:85944171f73967e8
                 */
                event: string;
                rung: components["schemas"]["Standing.rungText"];
                /**
                 * @description Edition in force then.
                 * @example 1.0.0
                 */
                edition: string;
            };
            /** @description Every rung of the drill that takes were played to or the student was put on, in that order, also those the edition in force does not have. */
            rungs: components["schemas"]["Standing.rung"][];
        };
        /**
         * RungStanding
         * @description What was shown on one rung.
         */
        "Standing.rung": {
            rung: components["schemas"]["Standing.rungText"];
            /**
             * @description The takes played to it, in the order of the journal.
             * @example [
             *       "2026-03-02-1",
             *       "2026-03-02-2"
             *     ]
             */
            takes: components["schemas"]["Standing.take"][];
            /**
             * @description One letter for each of these takes: w within tolerance, b beyond, u unclear.
             * @example wb
             */
            outcomes: string;
            /**
             * @description For each of these takes, landings left out and asked for, then the same of the other notes; zeros where the journal does not say. Absent when it says so of none.
             * @example [
             *       [
             *         1,
             *         4,
             *         2,
             *         60
             *       ],
             *       [
             *         0,
             *         4,
             *         0,
             *         60
             *       ]
             *     ]
             */
            leftOut?: components["schemas"]["JournalEvent.leftOut"][];
            /**
             * @description How many of these takes lie before the student's present stay on the rung and are no evidence for the next decision.
             * @example 0
             */
            from: number;
            /**
             * Credit
             * @description Present when the gate of this rung was met and has not lapsed by going back since.
             */
            credit?: {
                /**
                 * @description Id of the event that gave the credit.
                 * @example advanced:85944171f73967e8
                 */
                event: string;
                /**
                 * @description The clean takes it rests on.
                 * @example [
                 *       "2026-03-02-1",
                 *       "2026-03-02-2",
                 *       "2026-03-02-4"
                 *     ]
                 */
                evidence: components["schemas"]["Standing.take"][];
            };
        };
        /**
         * Take
         * @description What a student played: the times at which notes began.
         */
        Take: {
            /**
             * @description Version of this format; 1 when left out. A reader refuses versions it does not know.
             * @default 1
             * @constant
             */
            version: 1;
            /**
             * @description Name of the take, unique for the student: the same id is counted once.
             * @example 2026-03-02-1
             */
            id?: string;
            /**
             * @description When each note began, in seconds; a bare number or an object with more. Any order; an empty list is a take in which nothing was played.
             * @example [
             *       0.02,
             *       0.64,
             *       {
             *         "at": 1.27,
             *         "pitch": "D4",
             *         "velocity": 80
             *       }
             *     ]
             */
            onsets: (components["schemas"]["Take.time"] | components["schemas"]["Take.onset"])[];
            /**
             * @description What time 0 of the onsets is: the start of the count-in, so when left out, or the downbeat of bar 1.
             * @default count-in
             * @enum {unknown}
             */
            zero: "count-in" | "bar-1";
            /**
             * @description Known delay of the recording, in milliseconds (positive: onsets arrive late); leave out when unknown.
             * @example 12
             */
            latencyMs?: number;
            /**
             * @description Standard error of that delay (its standard deviation from take to take), in milliseconds, as found when the device was calibrated.
             * @default 3
             * @example 3
             */
            latencyStandardErrorMs: number;
            /**
             * @description Timing noise of the recording itself per onset (standard deviation, milliseconds), for instance of an onset detector; leave out when negligible.
             * @example 4
             */
            motorFloorMs?: number;
            /**
             * Format: date-time
             * @description When it was played (RFC 3339).
             * @example 2026-03-02T17:30:00Z
             */
            played?: string;
            /**
             * @description Who played it: a pseudonym is enough.
             * @example tern
             */
            student?: string;
            /**
             * @description The drill it was played to.
             * @example half-bar
             */
            drill?: string;
            /**
             * @description The rung it was played to, by its settings; a number would be another rung in another edition.
             * @example dropout=1/2 bar,tempo=96
             */
            rung?: string;
            /**
             * @description The mix it was played to.
             * @example play
             */
            mix?: string;
            /**
             * @description The draw of silences at random places it was played to.
             * @example 2026-03-02-1
             */
            draw?: string;
            /** @description What was noticed when the take was read or listened to, such as a recording that is clipped; left out when nothing was. */
            advice?: components["schemas"]["Take.advice"][];
        };
        /**
         * Advice
         * @description A problem that stops nothing.
         */
        "Take.advice": {
            /**
             * @description Stable name of the cause.
             * @example RECORDING_CLIPPED
             */
            code: string;
            /**
             * @description Errors are not advice: they stop the work.
             * @constant
             */
            severity: "advice";
            /**
             * @description What was noticed, in one sentence.
             * @example 2.4 % of its samples are cut off at full scale
             */
            message: string;
            /**
             * AdvicePlace
             * @description Where it was noticed, as far as that is known.
             */
            where: {
                /**
                 * @description The file.
                 * @example take.wav
                 */
                file?: string;
                /**
                 * @description The line in it, from 1.
                 * @example 3
                 */
                line?: number;
                /**
                 * @description The column, from 1.
                 * @example 1
                 */
                column?: number;
                /**
                 * @description RFC 6901 JSON pointer.
                 * @example /onsets/3
                 */
                pointer?: string;
                /**
                 * @description Characters into the text the pointer leads to.
                 * @example 0
                 */
                offset?: number;
            };
            /**
             * @description What to do, where that is known.
             * @example go further from the microphone, or turn its level down
             */
            remedy?: string;
        };
        /**
         * @description Seconds.
         * @example 0.64
         */
        "Take.time": number;
        /**
         * PlayedOnset
         * @description One onset with what is known of the note.
         */
        "Take.onset": {
            at: components["schemas"]["Take.time"];
            /**
             * @description Concert pitch: a name in scientific notation, or a MIDI note number.
             * @example D4
             * @example 62
             */
            pitch?: string | number;
            /**
             * @description How strongly it was played, 0 to 127.
             * @example 80
             */
            velocity?: number;
        };
    };
    responses: never;
    parameters: never;
    requestBodies: never;
    headers: never;
    pathItems: never;
}
export type $defs = Record<string, never>;
export interface operations {
    health: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Both are up. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Health"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    document: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description OpenAPI 3.1. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": Record<string, never>;
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    metrics: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description Metrics. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/openmetrics-text": string;
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    showInvitation: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["InvitationSecret"];
            };
        };
        responses: {
            /** @description The invitation. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["InvitationShown"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The invitation cannot be used. */
            410: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem410"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    acceptInvitation: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["InvitationAnswer"];
            };
        };
        responses: {
            /** @description The person is in the class. */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Welcome"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description It does not go with what is there. */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem409"];
                };
            };
            /** @description The invitation cannot be used. */
            410: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem410"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    me: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The person. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Me"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    signOut: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The key is not known any more. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    tokens: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The tokens. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TokenList"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    addToken: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The token, said once. */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TokenMade"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    removeToken: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                token: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The token is not known any more. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    courses: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The courses. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CourseList"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    course: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The course. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CompiledCourse"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    edition: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                course: string;
                edition: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The edition. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["CompiledCourse"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    classes: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path?: never;
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The classes. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ClassList"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    beginClass: {
        parameters: {
            query?: never;
            header?: never;
            path?: never;
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["ClassWish"];
            };
        };
        responses: {
            /** @description The class. */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Class"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description It does not go with what is there. */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem409"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    students: {
        parameters: {
            query?: {
                after?: string;
                limit?: number;
            };
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                class: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The students. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["StudentPage"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    removeStudent: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                class: string;
                student: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The student is not in the class any more. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    classReport: {
        parameters: {
            query?: {
                after?: string;
                limit?: number;
            };
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                class: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The report of those on the page. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["ClassReport"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    invitations: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                class: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The invitations. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["InvitationList"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    invite: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                class: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["InvitationWish"];
            };
        };
        responses: {
            /** @description The invitation, its secret said once. */
            201: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["InvitationMade"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    revoke: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                class: string;
                invitation: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description It cannot be used any more. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    pause: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                student: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["Pause"];
            };
        };
        responses: {
            /** @description Done. */
            204: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    erase: {
        parameters: {
            query?: {
                confirm?: string;
            };
            header?: never;
            path: {
                student: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description What was erased, and where copies may be. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Erased"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description It does not go with what is there. */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem409"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    standing: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The standing. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Standing"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    submit: {
        parameters: {
            query?: {
                drill?: string;
                rung?: string;
                mix?: string;
                draw?: string;
                zero?: "count-in" | "bar-1";
                latencyMs?: number;
                start?: number;
                family?: "percussive" | "plucked" | "blown" | "bowed";
            };
            header?: never;
            path: {
                student: string;
                course: string;
                take: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["Take"];
                "audio/midi": string;
                "audio/*": unknown;
            };
        };
        responses: {
            /** @description What the take showed, and the decision it led to. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["TakeAnswer"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description It does not go with what is there. */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem409"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    plan: {
        parameters: {
            query?: {
                minutes?: number;
                today?: string;
                seed?: string;
            };
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The plan. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Plan"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    place: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["PlacementWish"];
            };
        };
        responses: {
            /** @description What to play next, or where the student begins. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Placement"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description It does not go with what is there. */
            409: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem409"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    report: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The report. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Report"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    journal: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The journal. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/jsonl": string;
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    mergeJournal: {
        parameters: {
            query?: never;
            header?: never;
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/jsonl": string;
            };
        };
        responses: {
            /** @description What was added, known and refused. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Merged"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    setRung: {
        parameters: {
            query?: never;
            header?: {
                "If-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody: {
            content: {
                "application/json": components["schemas"]["RungWish"];
            };
        };
        responses: {
            /** @description The standing. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["Standing"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The standing is another one than If-Match says. */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem412"];
                };
            };
            /** @description The body is too large. */
            413: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem413"];
                };
            };
            /** @description The body is of no kind that is taken. */
            415: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem415"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    foreseeEdition: {
        parameters: {
            query?: never;
            header?: {
                "If-None-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The effect. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["EditionEffect"];
                };
            };
            /** @description The answer is what the header If-None-Match names. */
            304: {
                headers: {
                    [name: string]: unknown;
                };
                content?: never;
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
    takeOver: {
        parameters: {
            query?: never;
            header?: {
                "If-Match"?: string;
            };
            path: {
                student: string;
                course: string;
            };
            cookie?: never;
        };
        requestBody?: never;
        responses: {
            /** @description The effect. */
            200: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/json": components["schemas"]["EditionEffect"];
                };
            };
            /** @description The request, its body or its query cannot be read. */
            400: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem400"];
                };
            };
            /** @description No key, or none that is known. */
            401: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem401"];
                };
            };
            /** @description Not for this role, or sent by a page of another site. */
            403: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem403"];
                };
            };
            /** @description There is nothing of this name that whoever asks may see. */
            404: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem404"];
                };
            };
            /** @description The standing is another one than If-Match says. */
            412: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem412"];
                };
            };
            /** @description The request is for another host. */
            421: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem421"];
                };
            };
            /** @description What the body or the query says cannot be. */
            422: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem422"];
                };
            };
            /** @description Too many requests; Retry-After says when to come again. */
            429: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem429"];
                };
            };
            /** @description A defect of the server. */
            500: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem500"];
                };
            };
            /** @description The store cannot do this now. */
            503: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem503"];
                };
            };
            /** @description The answer took too long. */
            504: {
                headers: {
                    [name: string]: unknown;
                };
                content: {
                    "application/problem+json": components["schemas"]["Problem504"];
                };
            };
        };
    };
}
