export { captionsText, type FilmChapter, type FilmWords, filmChapters } from "./captions.js";
export { filmDrawing } from "./filmDrawing.js";
export { FRAME_RATE, frameAt, framesOver, isDemonstration } from "./frames.js";
export type { FilmDrawing, FilmOptions, FilmSize } from "./layOutFilm.js";
export { type Frame, type Mark, paintMark } from "./paintMark.js";
export { barAt } from "./riffPlaces.js";
export { beatBefore, phraseAt, type Screen, screenAt } from "./screenAt.js";
export { STRIP, stripUnder } from "./stripUnder.js";
