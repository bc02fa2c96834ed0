"""Reports of a job for someone who was not there: HTML, PDF, CSV, JSON, Markdown and text."""

from assistant.report.gathering import box_report, job_report
from assistant.report.model import BoxReport, JobReport, Material

__all__ = ["BoxReport", "JobReport", "Material", "box_report", "job_report"]
