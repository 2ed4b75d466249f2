export { answerAuth as GET, answerAuth as POST } from "@/lib/domains/identity/routes";
