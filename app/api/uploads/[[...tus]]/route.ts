import { sendUploadBytes } from "@/lib/domains/clips/routes";

export { sendUploadBytes as DELETE, sendUploadBytes as HEAD, sendUploadBytes as PATCH, sendUploadBytes as POST };
