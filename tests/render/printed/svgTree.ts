import { SaxesParser } from "saxes";

/** An element of an SVG document with what is in it. */
export interface SvgNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: SvgNode[];
  /** Its own text and that of what is in it, in order. */
  text: string;
}

export function svgTree(svg: string): SvgNode {
  const root: SvgNode = { name: "", attributes: {}, children: [], text: "" };
  const stack: SvgNode[] = [root];
  const parser = new SaxesParser();
  parser.on("opentag", ({ name, attributes }) => {
    const node: SvgNode = { name, attributes, children: [], text: "" };
    stack.at(-1)!.children.push(node);
    stack.push(node);
  });
  parser.on("text", (text) => {
    for (const node of stack) node.text += text;
  });
  parser.on("closetag", () => void stack.pop());
  parser.write(svg).close();
  return root.children[0]!;
}

/** A node and all that is in it, in order. */
export function all(node: SvgNode): readonly SvgNode[] {
  return [node, ...node.children.flatMap(all)];
}

export function hasClass({ attributes }: SvgNode, name: string): boolean {
  return (attributes.class ?? "").split(" ").includes(name);
}
