"""Reports of a job for someone who was not there: HTML, PDF, CSV, JSON, Markdown and text."""

from boxaloud.assistant.report.gathering import box_report, job_report
from boxaloud.assistant.report.model import BoxReport, JobReport, Material

__all__ = ["BoxReport", "JobReport", "Material", "box_report", "job_report"]
