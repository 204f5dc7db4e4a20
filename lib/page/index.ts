export { CONCERT, type PageFile, type SheetWidth } from "./model.js";
export { contentFiles, type EngravedRiffs, type PageCourse, type PageRecording } from "./publish/contentFiles.js";
export { classDocument } from "./publish/document.js";
export { folderFiles } from "./publish/folderFiles.js";
export { indexPage, NARROW_STRIP } from "./publish/indexPage.js";
export { singlePage } from "./publish/singlePage.js";
