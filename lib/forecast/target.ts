/**
 * Chance of a clean take in new work: about 85 %, where gradient learners on two-way choices learn fastest (Wilson, Shenhav, Straccia &
 * Cohen 2019, Nat. Commun. 10:4646, abstract read). That it holds for playing in time is assumed, not shown.
 */
export const TARGET = 0.85;
