/** The settings of a rung that differ from those of another, in words: "tempo 88, dropout 1/2 bar". */
export function changeText(from: string, to: string): string {
  const before = new Set(from.split(","));
  const changed = to.split(",").filter((setting) => !before.has(setting));
  return (changed.length === 0 ? to.split(",") : changed).map((setting) => setting.replace("=", " ")).join(", ");
}
