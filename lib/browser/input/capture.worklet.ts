// The file of the worklet, for servers whose content security policy allows no code but their own files.
import { registerCapture } from "./registerCapture.js";

registerCapture();
