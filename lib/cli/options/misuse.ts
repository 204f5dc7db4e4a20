import { type Argument, Command, type Option } from "commander";
import { nearestName } from "../../base/index.js";
import type { Words } from "../../words/index.js";

type Say = Words["say"];

/** A command line that cannot be meant: what is wrong, in the words of a language. */
export class Misuse extends Error {
  constructor(readonly said: (say: Say) => string) {
    super("the command line was misused");
  }
}

/** A text that an option cannot take. The option's own name is given by the command that reads it. */
export class ValueMisuse extends Error {
  constructor(readonly said: (say: Say, option: string) => string) {
    super("an option has a value that it cannot take");
  }
}

/**
 * A command that says in the words of the answer's language why a command line cannot be meant: by `Misuse`, where the library would print an English
 * sentence. These are the methods by which the library says so.
 */
export class WordedCommand extends Command {
  override createCommand(name?: string): WordedCommand {
    return new WordedCommand(name);
  }

  override addOption(option: Option): this {
    named(option, option.long ?? option.flags);
    return super.addOption(option);
  }

  override addArgument(argument: Argument): this {
    named(argument, `<${argument.name()}>`);
    return super.addArgument(argument);
  }

  missingArgument(name: string): never {
    throw new Misuse((say) => say("cli.misuse.argument-missing", { argument: `<${name}>` }));
  }

  optionMissingArgument({ flags }: Option): never {
    throw new Misuse((say) => say("cli.misuse.value-missing", { option: flags }));
  }

  missingMandatoryOptionValue({ flags }: Option): never {
    throw new Misuse((say) => say("cli.misuse.option-needed", { option: flags }));
  }

  unknownOption(option: string): never {
    const nearest = nearestName(
      option,
      this.options.flatMap(({ long }) => long ?? []),
    );
    throw new Misuse((say) =>
      nearest === undefined
        ? say("cli.misuse.option-unknown", { option })
        : say("cli.misuse.option-unknown-nearest", { option, nearest }),
    );
  }

  unknownCommand(): never {
    const [name = ""] = this.args;
    const nearest = nearestName(
      name,
      this.commands.map((each) => each.name()),
    );
    throw new Misuse((say) =>
      nearest === undefined
        ? say("cli.misuse.command-unknown", { name })
        : say("cli.misuse.command-unknown-nearest", { name, nearest }),
    );
  }

  _excessArguments(received: readonly string[]): never {
    const first = received[this.registeredArguments.length] ?? "";
    throw new Misuse((say) => say("cli.misuse.argument-too-many", { first, command: this.name() }));
  }
}

/** Lets an option or argument say by its name what it cannot take. */
function named(read: Pick<Option | Argument, "argChoices" | "parseArg">, name: string): void {
  const { argChoices, parseArg } = read;
  if (parseArg === undefined) return;
  read.parseArg = <T>(text: string, before: T): T => {
    if (argChoices !== undefined && !argChoices.includes(text)) {
      const asked = { option: name, allowed: argChoices.join(", "), found: text };
      throw new Misuse((say) => say("cli.misuse.one-of", asked));
    }
    try {
      return parseArg(text, before);
    } catch (error) {
      if (!(error instanceof ValueMisuse)) throw error;
      throw new Misuse((say) => error.said(say, name));
    }
  };
}
