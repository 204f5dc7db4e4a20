export { heightAt, type LaidSound, type LaidStretch, laidSounds, layRecording } from "./lay.js";
export { makeReady } from "./makeReady.js";
export type { Rate, ReadyRecording, RecordedSound, RecordingNeed, Stretcher, Stretching } from "./model.js";
export { isSameRecording, readyFor, recordingsIn } from "./needs.js";
export { type TempoHeard, tempoHeard } from "./tempoHeard.js";
