export { CONCERT, type PageFile, type SheetWidth } from "./model.js";
export { contentFiles, type EngravedRiffs, type PageCourse } from "./publish/contentFiles.js";
export { classDocument } from "./publish/document.js";
export { folderFiles } from "./publish/folderFiles.js";
export { indexPage, NARROW_STRIP } from "./publish/indexPage.js";
export { singlePage } from "./publish/singlePage.js";
