export { type CalendarOptions, planCalendar } from "./planCalendar.js";
