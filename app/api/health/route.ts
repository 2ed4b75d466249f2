export { health as GET } from "@/lib/domains/admin/routes";
